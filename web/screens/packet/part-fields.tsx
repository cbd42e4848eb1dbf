import { coreWords, partWords } from '#server/contract/packet-words.ts';
import type { PartGuide } from '#server/contract/packets.ts';
import { Button } from '#web/ui/button.tsx';
import type { DraftFields } from '#web/ui/kept-drafts.ts';
import { RadioLines } from '#web/ui/radio-lines.tsx';
import { SelectField } from '#web/ui/select-field.tsx';
import { TextField } from '#web/ui/text-field.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import { optionsOf, sourceWords } from './packet-words.ts';
import { asksRun, unitOfRun } from './part-draft.ts';
import styles from './parts-form.module.css';

interface Props {
  number: number;
  fields: DraftFields;
  faults: DraftFields;
  guide: Pick<PartGuide, 'price' | 'core_deposit' | 'supplier'>;
  onChange: (patch: DraftFields) => void;
  onRemove: () => void;
}

const longest = 120;
const show = (value: number | null): string | undefined => (value === null ? undefined : String(value));

/** One part: what, from where, for how much, and what became of the old unit. */
export function PartFields({ number, fields, faults, guide, onChange, onRemove }: Props) {
  const runUnit = unitOfRun(fields, useUnits());
  const text = (name: string) => ({
    value: fields[name] ?? '',
    error: faults[name],
    onChange: (typed: string) => onChange({ [name]: typed }),
  });
  const isConverter = fields.kind === 'converter';
  const hasCore = (fields.core_deposit ?? '') !== '' || isConverter || (fields.core ?? 'none') !== 'none';
  return (
    <fieldset className={styles.part} data-part={number}>
      <legend className={styles.legend}>Part {number}</legend>
      <SelectField
        label="What was replaced"
        options={[{ value: '', label: 'choose' }, ...optionsOf(partWords)]}
        {...text('kind')}
      />
      <TextField label="Number or name" maxLength={longest} autoComplete="off" {...text('what')} />
      <RadioLines
        legend="Source"
        value={fields.source ?? 'new'}
        options={optionsOf(sourceWords)}
        onChange={(source) => onChange({ source })}
      />
      {asksRun(fields) && (
        <TextField
          label={`What it had run before, ${runUnit}, if known`}
          inputMode="decimal"
          autoComplete="off"
          hint="in other vehicles, before it was fitted here"
          {...text('had_run')}
          onChange={(had_run) => onChange({ had_run, had_run_unit: had_run === '' ? '' : runUnit })}
        />
      )}
      <TextField
        label="Supplier"
        maxLength={longest}
        autoComplete="off"
        placeholder={isConverter ? (guide.supplier ?? undefined) : undefined}
        {...text('supplier')}
      />
      <TextField
        label="Price"
        inputMode="decimal"
        autoComplete="off"
        placeholder={isConverter ? show(guide.price) : undefined}
        {...text('price')}
      />
      <TextField
        label="Core deposit"
        inputMode="decimal"
        autoComplete="off"
        placeholder={isConverter ? show(guide.core_deposit) : undefined}
        hint="held until the old unit comes back"
        {...text('core_deposit')}
        onChange={(core_deposit) =>
          // What a deposit is held for is to go back, unless somebody says otherwise.
          onChange({
            core_deposit,
            ...((fields.core_deposit ?? '') === '' &&
            (fields.core ?? 'none') === 'none' &&
            core_deposit !== ''
              ? { core: 'to_return' }
              : {}),
          })
        }
      />
      {hasCore && (
        <RadioLines
          legend="The old unit"
          value={fields.core ?? 'none'}
          options={optionsOf(coreWords)}
          onChange={(core) => onChange({ core })}
        />
      )}
      <p className={styles.remove}>
        <Button kind="quiet" aria-label={`Remove part ${number}`} onClick={onRemove}>
          Remove
        </Button>
      </p>
    </fieldset>
  );
}
