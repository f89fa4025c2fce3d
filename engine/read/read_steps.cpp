#include "read/draft_parts.hpp"

namespace rushlight {

namespace {

DraftOutcome outcome_from_node(const XmlNode& node) {
  return {node.name.where, node.value_of("outcome"), node.value_of("go"), node.value_of("as")};
}

DraftAction action_from_node(const XmlNode& node) {
  return {node.name.where,
          node.value_of("id"),
          node.value_of("kind"),
          node.value_of("dose"),
          node.value_of("source"),
          node.value_of("counts"),
          node.value_of("records"),
          node.value_of("as"),
          node.value_of("starts"),
          node.value_of("lasts"),
          node.value_of("stops"),
          node.value_of("contact"),
          node.value_of("answer-within"),
          conditions_from_node(node),
          text_from_node(node),
          made_from_children<DraftOutcome>(node, "on", outcome_from_node)};
}

std::optional<DraftWait> wait_of(const XmlNode& step) {
  const XmlNode* node = step.child("wait");
  if (!node) return std::nullopt;
  return DraftWait{node->name.where,
                   node->value_of("timer"),
                   node->value_of("lasts"),
                   node->value_of("after"),
                   node->value_of("start-within"),
                   node->value_of("insulin-again"),
                   node->value_of("overdue"),
                   node->value_of("go")};
}

DraftStep step_from_node(const XmlNode& node) {
  return {node.name.where,
          node.value_of("id"),
          node.value_of("urgency"),
          node.value_of("handles"),
          node.value_of("counts"),
          node.value_of("ends"),
          node.value_of("ends-visit"),
          node.value_of("source"),
          text_of_child(node, "headline"),
          made_from_children<DraftAction>(node, "do", action_from_node),
          wait_of(node),
          asks_from_node(node),
          rules_from_node(node)};
}

}  // namespace

std::vector<DraftRule> rules_from_node(const XmlNode& node) {
  return made_from_children<DraftRule>(node, "rule", [](const XmlNode& rule) {
    const MaybeWord otherwise = rule.value_of("otherwise");
    return DraftRule{rule.name.where,         rule.value_of("id"),     rule.value_of("go"),
                     rule.value_of("resets"), rule.value_of("source"), rule.value_of("early"),
                     rule.value_of("sets"),   rule.value_of("visit"),  rule.value_of("hand-over"),
                     otherwise && otherwise->text == "yes",            conditions_from_node(rule)};
  });
}

std::vector<DraftWatch> watch_from_node(const XmlNode& node) {
  return made_from_children<DraftWatch>(node, "rule", [](const XmlNode& rule) {
    DraftText also = text_from_node(rule);
    return DraftWatch{rule.name.where,
                      rule.value_of("id"),
                      rule.value_of("go"),
                      rule.value_of("source"),
                      rule.value_of("told"),
                      conditions_from_node(rule),
                      also.lines.empty() ? std::nullopt : std::optional(std::move(also))};
  });
}

std::vector<DraftAsk> asks_from_node(const XmlNode& node) {
  return made_from_children<DraftAsk>(node, "ask", [](const XmlNode& ask) {
    return DraftAsk{ask.name.where, ask.value_of("fact"), ask.value_of("fresh")};
  });
}

std::vector<DraftStep> steps_from_node(const XmlNode& steps) {
  return made_from_children<DraftStep>(steps, "step", step_from_node);
}

}  // namespace rushlight
