const roundSteps = [1, 2, 5, 10];

/** Round values from `from` to `to`, about as many as asked for. */
export function roundTicks(from: number, to: number, about: number): number[] {
  if (!(to > from) || about < 1) return [];
  const wanted = (to - from) / about;
  const size = 10 ** Math.floor(Math.log10(wanted));
  const step = (roundSteps.find((one) => one * size >= wanted * 0.999) ?? 10) * size;
  const ticks: number[] = [];
  for (let i = Math.ceil(from / step - 1e-9); i * step <= to + step * 1e-9; i++)
    ticks.push(Number((i * step).toPrecision(12)));
  return ticks;
}
