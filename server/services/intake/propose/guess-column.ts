import { fieldUnits } from '#server/contract/field-units.ts';
import type { FileUnit, MappedField, Mapping } from '#server/contract/mappings.ts';
import { mappedFields } from '#server/contract/mappings.ts';
import { createCellReader } from '#server/services/intake/mapped/create-cell-reader.ts';
import { unitOf } from '#server/services/intake/mapped/unit-words.ts';
import { findUnit, type NamedAs, partName, readName } from './column-words.ts';
import { describeFigures } from './describe-figures.ts';
import { type DescribedTimes, describeTimes } from './describe-times.ts';
import { judgeFigures } from './judge-figures.ts';

export interface GuessedColumn {
  as: NamedAs | null;
  unit: FileUnit | null;
  times: DescribedTimes | null;
  why: string;
  /** each a sentence whose subject is the column */
  doubts: string[];
}

const nothing = (why: string): GuessedColumn => ({ as: null, unit: null, times: null, why, doubts: [] });
export const isField = (as: string | null): as is MappedField =>
  (mappedFields as readonly (string | null)[]).includes(as);

/** What a column is by its name, where what it holds can be that; never by what it holds alone. */
export function guessColumn(
  name: string,
  cells: readonly string[],
  decimal: Mapping['decimal'],
  unitBelow: FileUnit | null,
): GuessedColumn {
  const parts = partName(name);
  const unit = parts.unit ?? unitBelow;
  const within = findUnit(parts.words);
  let declined: GuessedColumn | null = null;
  // 'Engine rpm' without its unit says nothing; 'odo km' with it may say more than is meant.
  const kind = kindOf(unit ?? describeFigures(cells, decimal).units[0]);
  const spellings = [parts.words, parts.all, ...(kind === null ? [] : [`${parts.words} ${kind}`])];
  for (const as of new Set(spellings.flatMap(readName))) {
    const fits = isField(as) && within !== undefined && fieldUnits[as].includes(within);
    const guess = tryAs(as, cells, decimal, unit ?? (fits ? within : null), parts.strangeUnit);
    if (guess.as !== null) return guess;
    declined ??= guess;
  }
  return declined ?? nothing('');
}

/** What a unit says of a name such as 'Engine [rpm]' or 'Gear oil [°C]'; null where it says nothing. */
function kindOf(unit: FileUnit | undefined): 'temp' | 'rpm' | null {
  if (unit === 'degC' || unit === 'degF' || unit === 'K') return 'temp';
  return unit === 'rpm' ? 'rpm' : null;
}

function tryAs(
  as: NamedAs,
  cells: readonly string[],
  decimal: Mapping['decimal'],
  unit: FileUnit | null,
  strangeUnit: string | null,
): GuessedColumn {
  const accept = (doubts: string[] = []): GuessedColumn => ({
    as,
    unit: null,
    times: null,
    why: 'by its name',
    doubts,
  });
  const decline = (why: string) => nothing(`named as ${as}, but ${why}`);
  if (as === 'codes')
    return cells.every((cell) => /^[01]?$/.test(cell)) && cells.length > 0
      ? decline('it holds 0 and 1 alone')
      : accept();
  if (as === 'shifting') {
    const read = createCellReader('shifting', null, decimal);
    return cells.every((cell) => typeof read(cell) === 'boolean')
      ? accept()
      : decline('it does not hold yes and no');
  }
  if (isField(as)) {
    if (strangeUnit !== null) return decline(`its name says that it is in ${strangeUnit}`);
    const judged = judgeFigures(as, unit, describeFigures(cells, decimal));
    if ('cannot' in judged) return decline(judged.cannot);
    const why =
      judged.unit === null ? 'by its name and figures' : `by its name and figures, in ${judged.unit}`;
    return { as, unit: judged.unit, times: null, why, doubts: judged.doubts };
  }
  if (as === 'time') {
    const times = describeTimes(cells.slice(0, 500));
    return times === null
      ? decline('it holds no times')
      : { ...accept(), times, why: 'by its name and the times in it' };
  }
  const areUnits = cells.length > 0 && cells.every((cell) => unitOf(cell) !== undefined);
  if (as === 'unit') return areUnits ? accept() : decline('it holds no units');
  if (as === 'vehicle' || as === 'vin' || as === 'device') {
    if (areUnits && as === 'vehicle') return { ...accept(), as: 'unit' };
    return cells.some((cell) => cell.length > 64) || cells.length === 0
      ? decline('it holds no names of vehicles')
      : accept();
  }
  return accept();
}
