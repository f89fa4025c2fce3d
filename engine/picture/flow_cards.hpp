#pragma once

#include <string>
#include <vector>

#include "protocol/protocol.hpp"

namespace rushlight {

/// One line of a card, as long as it likes, and the steps it names.
struct CardRow {
  std::string text;
  std::vector<StepId> to;
};

/// A step, or a list beside the steps.
struct Card {
  std::optional<StepId> step;
  std::string title;
  std::string headline;  // may be left out when the page is full
  std::vector<CardRow> rows;
};

/// Cards under one heading.
struct CardGroup {
  std::string heading;
  std::optional<Urgency> urgency;
  std::vector<Card> cards;
};

/// The danger signs; the steps by urgency, each after the one that it is first come to from, numbered in that order;
/// the limits that the rules name.
std::vector<CardGroup> card_groups(const Protocol& protocol);

/// For each step the one that it is first come to from; empty for the first step, and for what only a danger sign leads
/// to.
std::vector<std::optional<StepId>> first_ways(const Protocol& protocol);

}  // namespace rushlight
