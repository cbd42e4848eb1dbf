import type { Life } from '#server/contract/vehicle.ts';
import type { LifeSource } from '#server/contract/words.ts';
import { formatOdometer } from '#web/format/format-km.ts';
import type { Units } from '#web/format/units.ts';

const sourceWords: Record<LifeSource, string> = {
  original: 'original unit',
  new: 'new unit',
  rebuilt: 'rebuilt unit',
  used: 'used unit',
};

export const sayUnit = (life: Life): string => (life.source === null ? 'unit' : sourceWords[life.source]);

/** The border at which a life begins, longest wording first. */
export const sayBorder = (life: Life, units: Units): string[] => {
  const unit = sayUnit(life);
  return [`${unit} fitted, ${formatOdometer(life.fitted_km, units)}`, `${unit} fitted`, unit];
};
