#pragma once

namespace statistics
{

/// How often so uneven a split of rises and falls comes about by chance where each is as likely as the other
/// and all are independent: the exact two-sided sign test, ties left out. Dixon & Mood 1946, J Am Stat Assoc
/// 41:557, from memory. 1 for none.
double signTest(int rises, int falls);

} // namespace statistics
