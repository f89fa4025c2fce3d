#include "cli/child_questions.hpp"
#include "cli/child_words.hpp"

namespace rushlight::child_questions {

using namespace child_words;

namespace {

const Both& words_of(Delivery delivery) {
  if (delivery == Delivery::injections) return kInjections;
  return delivery == Delivery::pump ? kPump : kAutomaticPump;
}

const Both& words_of(Strips strips) {
  if (strips == Strips::blood) return kBlood;
  return strips == Strips::urine ? kUrine : kNone;
}

const Both& words_of(RescueKind kind) {
  if (kind == RescueKind::nasal) return kNasal;
  return kind == RescueKind::injection ? kMixed : kReady;
}

const Both& content_words(Unit unit) {
  if (unit == Unit::millilitre) return kInHundredMillilitres;
  return unit == Unit::gram ? kInHundredGrams : kInAPiece;
}

void show_contact(Interview& interview, const Both& label, const std::string& value) {
  if (!value.empty()) interview.tell(kShowContact, say(label, interview.language()), value);
}

}  // namespace

void show_back(Interview& interview, const Answers& answers) {
  const Child& child = answers.child;
  const Language language = interview.language();
  interview.tell("");
  interview.tell(kUnderstood);
  interview.tell(kShowName, child.name);
  interview.tell(kShowBirth, text_from_day(child.birth));
  interview.tell(kShowUnit, std::string(ucum(unit_of(child.unit))));
  if (child.weight && child.weighed) {
    interview.tell(kShowWeight, text_from_quantity(child.weight->quantity()), text_from_day(*child.weighed));
  } else {
    interview.tell(kShowNoWeight);
  }
  interview.tell(kShowDelivery, say(words_of(child.delivery), language));
  interview.tell(kShowStrips, say(words_of(child.strips), language));
  if (child.total_daily_dose) interview.tell(kShowDose, text_from_decimal(child.total_daily_dose->in(kInsulinUnit)));
  if (child.insulin_strength) interview.tell(kShowStrength, text_from_decimal(child.insulin_strength->value));
  if (child.insulin_step) interview.tell(kShowStep, text_from_decimal(child.insulin_step->in(kInsulinUnit)));
  if (child.correction_factor) {
    const CorrectionFactor& factor = *child.correction_factor;
    interview.tell(kShowCorrection, text_from_quantity(Quantity{factor.fall, unit_of(factor.unit)}));
  }
  if (child.rescue.empty()) interview.tell(kShowNoRescue);
  for (const RescueMedicine& medicine : child.rescue) {
    interview.tell(kShowRescue, say(words_of(medicine.kind), language),
                   medicine.expires ? text_from_day(*medicine.expires) : say(kDateUnknown, language));
  }
  for (const ChildFood& food : child.foods) {
    interview.tell(kShowFood, food.name[static_cast<int>(language)],
                   say(content_words(food.unit), language, text_from_decimal(food.carbohydrate)));
  }
  const Contacts& contacts = child.contacts;
  show_contact(interview, kClinic, contacts.clinic);
  show_contact(interview, kOnCall, contacts.on_call);
  show_contact(interview, kAdult, contacts.second_adult_name);
  show_contact(interview, kAdultNumber, contacts.second_adult);
  show_contact(interview, kEmergency, contacts.emergency);
  show_contact(interview, kAskAddress, contacts.address);
}

}  // namespace rushlight::child_questions
