#include "wire/json_from_child.hpp"

#include "protocol/words.hpp"
#include "wire/json_writer.hpp"

namespace rushlight {
namespace {

class ChildWriter {
 public:
  std::string written(const Child& child, Confirmed confirmed) {
    out_.begin_object();
    out_.key("name").text(child.name).key("birth").text(text_from_day(child.birth));
    if (child.weight) out_.key("weight").text(text_from_quantity(child.weight->quantity()));
    if (child.weighed) out_.key("weighed").text(text_from_day(*child.weighed));
    if (confirmed.weight) out_.key("weight_confirmed").boolean(true);
    out_.key("unit").text(ucum(unit_of(child.unit)));
    out_.key("delivery").text(name_of(child.delivery)).key("strips").text(name_of(child.strips));
    if (child.total_daily_dose)
      out_.key("total_daily_dose").text(text_from_quantity(child.total_daily_dose->quantity()));
    if (confirmed.total_daily_dose) out_.key("total_daily_dose_confirmed").boolean(true);
    if (child.daily_dose_on) out_.key("total_daily_dose_on").text(text_from_day(*child.daily_dose_on));
    if (child.insulin_step) out_.key("insulin_step").text(text_from_quantity(child.insulin_step->quantity()));
    if (child.insulin_strength) out_.key("insulin_strength").text(text_from_quantity(*child.insulin_strength));
    if (child.correction_factor) {
      const CorrectionFactor& factor = *child.correction_factor;
      out_.key("correction_factor").text(text_from_quantity(Quantity{factor.fall, unit_of(factor.unit)}));
    }
    write_rescue(child);
    write_foods(child);
    write_contacts(child.contacts);
    out_.key("language").text(words::kLanguages[static_cast<std::size_t>(child.language)]);
    out_.key("set").text(child.set);
    filled("protocols", child.protocols);
    out_.end_object();
    return out_.json() + "\n";
  }

 private:
  void filled(std::string_view key, const std::string& text) {
    if (!text.empty()) out_.key(key).text(text);
  }

  void write_rescue(const Child& child) {
    out_.key("rescue").begin_list();
    for (const RescueMedicine& medicine : child.rescue) {
      out_.begin_object().key("kind").text(name_of(medicine.kind));
      if (medicine.expires) out_.key("expires").text(text_from_day(*medicine.expires));
      filled("place", medicine.place);
      if (medicine.concentration) out_.key("concentration").text(text_from_quantity(*medicine.concentration));
      out_.end_object();
    }
    out_.end_list();
  }

  void write_name(const std::string (&name)[kLanguages]) {
    out_.key("name").begin_object();
    for (std::size_t i = 0; i < words::kLanguages.size(); ++i) filled(words::kLanguages[i], name[i]);
    out_.end_object();
  }

  void write_foods(const Child& child) {
    out_.key("foods").begin_list();
    for (const ChildFood& food : child.foods) {
      out_.begin_object().key("kind").text(name_of(food.kind));
      write_name(food.name);
      const bool pieces = food.unit == Unit::one;
      const Unit content = pieces                    ? Unit::gram
                           : food.unit == Unit::gram ? Unit::gram_per_100_gram
                                                     : Unit::gram_per_100_ml;
      out_.key("unit").text(pieces ? "piece" : ucum(food.unit));
      out_.key("carbohydrate").text(text_from_quantity(Quantity{food.carbohydrate, content}));
      if (food.measure) {
        out_.key("measure").begin_object();
        write_name(food.measure->name);
        out_.key("size").text(text_from_quantity(Quantity{food.measure->size, food.unit})).end_object();
      }
      out_.key("source").text(food.source).end_object();
    }
    out_.end_list();
  }

  void write_contacts(const Contacts& contacts) {
    out_.key("contacts").begin_object();
    filled("clinic", contacts.clinic);
    filled("on_call", contacts.on_call);
    if (!contacts.second_adult_name.empty()) {
      out_.key("second_adult").begin_object().key("name").text(contacts.second_adult_name);
      filled("number", contacts.second_adult);
      out_.end_object();
    }
    filled("emergency", contacts.emergency);
    filled("address", contacts.address);
    out_.end_object();
  }

  JsonWriter out_{JsonWriter::Form::indented};
};

}  // namespace

std::string json_from_child(const Child& child, Confirmed confirmed) { return ChildWriter().written(child, confirmed); }

}  // namespace rushlight
