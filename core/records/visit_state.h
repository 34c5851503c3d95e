#pragma once

#include <QString>

#include <optional>

namespace records
{

enum class VisitState { Draft, Signed, Amended };

/// "draft", "signed" or "amended".
QString code(VisitState state);
std::optional<VisitState> visitStateFromCode(const QString& code);

} // namespace records
