/** A trouble code as everybody here spells it. */
export interface SpelledCode {
  /** 'P0741', 'P0741-1A', 'SPN 573', 'SPN 573 FMI 7' */
  code: string;
  /** the same without its failure type or FMI, where it has one: what stands for any of them */
  family: string | null;
}

/** SAE J2012: a letter, 0 to 3, three hexadecimal digits; a failure type of two after a sign (from memory). */
const POWERTRAIN = /^([PBCU][0-3][0-9A-F]{3})(?:[-:]([0-9A-F]{2}))?$/i;
const SIGN = String.raw`\s*[:=#_-]?\s*`;
const BETWEEN = String.raw`\s*[/,;:|_-]?\s*`;
const SPN_FIRST = new RegExp(
  `^SPN${SIGN}(\\d{1,6})(?:${BETWEEN}FMI${SIGN}(\\d{1,2})|\\s*[/:-]\\s*(\\d{1,2}))?$`,
  'i',
);
const FMI_FIRST = new RegExp(`^FMI${SIGN}(\\d{1,2})${BETWEEN}SPN${SIGN}(\\d{1,6})$`, 'i');
/** Without its labels a pair is taken for SPN and FMI in their usual order, but for what may be a J2012 number. */
const BARE = /^([1-9]\d{0,5})\s*[/-]\s*(\d{1,2})$/;

/** SAE J1939-73: an SPN has 19 bits and an FMI 5; SPN 0 says that no code is active. */
const MOST_SPN = 2 ** 19 - 1;
const MOST_FMI = 31;

/** A trouble code in canonical form, whatever way it was spelled; null where a spelling may mean something else. */
export function spellCode(text: string): SpelledCode | null {
  const trimmed = text.trim();
  const [, base, failure] = POWERTRAIN.exec(trimmed) ?? [];
  if (base !== undefined) {
    const family = base.toUpperCase();
    return failure === undefined
      ? { code: family, family: null }
      : { code: `${family}-${failure.toUpperCase()}`, family };
  }
  const [, spn, named, bare] = SPN_FIRST.exec(trimmed) ?? [];
  if (spn !== undefined) return joinParts(spn, named ?? bare);
  const [, fmiBefore, spnAfter] = FMI_FIRST.exec(trimmed) ?? [];
  if (spnAfter !== undefined) return joinParts(spnAfter, fmiBefore);
  const [, first, second] = BARE.exec(trimmed) ?? [];
  return first === undefined ? null : joinParts(first, second);
}

function joinParts(spnDigits: string, fmiDigits: string | undefined): SpelledCode | null {
  const spn = Number(spnDigits);
  if (spn < 1 || spn > MOST_SPN) return null;
  const family = `SPN ${spn}`;
  if (fmiDigits === undefined) return { code: family, family: null };
  const fmi = Number(fmiDigits);
  return fmi > MOST_FMI ? null : { code: `${family} FMI ${fmi}`, family };
}
