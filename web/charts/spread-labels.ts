/**
 * Moves labels at line ends apart, as little as needed, in their order from top to bottom: each at least `gapPx`
 * below the one before, all within the bounds where there is room. Labels of several lines say how tall they are.
 */
export function spreadLabels<T extends { yPx: number; heightPx?: number }>(
  labels: readonly T[],
  gapPx: number,
  bounds: { topPx: number; bottomPx: number },
): (T & { placedPx: number })[] {
  const gapOf = (upper: T, lower: T) => ((upper.heightPx ?? gapPx) + (lower.heightPx ?? gapPx)) / 2;
  const placed = labels
    .toSorted((a, b) => a.yPx - b.yPx)
    .map((label) => ({ ...label, placedPx: Math.min(Math.max(label.yPx, bounds.topPx), bounds.bottomPx) }));
  for (let round = 0; round < placed.length; round++)
    for (let i = 1; i < placed.length; i++) {
      const upper = placed[i - 1];
      const lower = placed[i];
      if (upper === undefined || lower === undefined) continue;
      const gap = gapOf(upper, lower);
      const lacking = gap - (lower.placedPx - upper.placedPx);
      if (lacking <= 0) continue;
      upper.placedPx = Math.max(bounds.topPx, upper.placedPx - lacking / 2);
      lower.placedPx = upper.placedPx + gap;
    }
  for (let i = placed.length - 1; i >= 0; i--) {
    const label = placed[i];
    if (label === undefined) continue;
    const next = placed[i + 1];
    const most = next === undefined ? bounds.bottomPx : next.placedPx - gapOf(label, next);
    label.placedPx = Math.min(label.placedPx, most);
  }
  let least = bounds.topPx;
  placed.forEach((label, i) => {
    const before = placed[i - 1];
    if (before !== undefined) least = before.placedPx + gapOf(before, label);
    label.placedPx = Math.max(label.placedPx, least);
  });
  return placed;
}
