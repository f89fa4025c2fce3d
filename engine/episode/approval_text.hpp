#pragma once

#include <string>

#include "episode/scene.hpp"

namespace rushlight {

/// Whether somebody stands for a protocol on a day.
enum class ApprovalState : std::uint8_t { none, changed, untrusted, to_come, over, approved };

/// The id of a state, for JSON: "not-approved", "changed", "not-trusted", "not-begun", "ended", "approved".
std::string_view id_of(ApprovalState state);

ApprovalState approval_state(const std::optional<Approval>& approval, const Day& today);

/// "Approved by Dr. Rill (pediatrician), until 2027-03-01.", or that nobody has approved it, that it or its set was
/// changed since, that its key is not trusted here, or that the approval is over or has not begun.
std::string approval_text(const std::optional<Approval>& approval, const Day& today, Language language);

/// Of the protocol whose step the episode is at.
std::optional<Approval> approval_in(const Scene& scene);

/// Approved, in date, and by a key that is trusted here.
bool is_approved_now(const Scene& scene);

}  // namespace rushlight
