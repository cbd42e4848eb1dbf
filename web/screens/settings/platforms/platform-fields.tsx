import { temperatureUnit } from '#web/format/format-temperature.ts';
import type { Units } from '#web/format/units.ts';
import settingsStyles from '#web/screens/settings/settings.module.css';
import { TextField } from '#web/ui/text-field.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import type { PlatformDraft, PlatformFaults } from './platform-draft.ts';
import styles from './platform-fields.module.css';

type Field = keyof PlatformDraft;

/** How the server names each field. */
export const serverNames: Record<Field, string> = {
  id: 'id',
  name: 'name',
  limit_rpm: 'limit_rpm',
  life_km: 'life_km',
  inspection_hours: 'inspection_hours',
  road_failure: 'costs.road_failure',
  planned_repair: 'costs.planned_repair',
  inspection: 'costs.inspection',
  lost_day: 'costs.lost_day',
  duty_pct: 'reference.duty_pct',
  load_pct: 'reference.load_pct',
  fluid_c: 'reference.fluid_c',
};

const sayGroups = (
  units: Units,
): { legend: string; note?: string; fields: readonly [Field, label: string, hint?: string][] }[] => [
  {
    legend: 'When a clutch counts as failed',
    fields: [
      ['limit_rpm', 'Limit, rpm of slip at the reference point'],
      [
        'life_km',
        `Expected life of a converter, ${units.distance}`,
        'For failures without notice. Empty: not known, and none are counted.',
      ],
    ],
  },
  {
    legend: 'Costs',
    note: 'In the currency of the fleet. A vehicle stands the higher, the more inspecting it saves: chance times what a failure on the road costs over a planned repair, less inspection and lost day.',
    fields: [
      ['road_failure', 'Failure on the road', 'Tow, lost service, transmission.'],
      ['planned_repair', 'Planned repair', 'The same converter changed in a booked bay.'],
      ['inspection', 'Inspection', 'Work and material.'],
      ['lost_day', 'Lost day', 'What the service loses meanwhile.'],
    ],
  },
  {
    legend: 'Bay',
    fields: [['inspection_hours', 'An inspection has the bay for, h', 'In quarters of an hour.']],
  },
  {
    legend: 'Reference point',
    note: 'Slip is compared at this command, load and temperature.',
    fields: [
      ['duty_pct', 'Command, %'],
      ['load_pct', 'Load, %'],
      ['fluid_c', `Fluid, ${temperatureUnit(units)}`],
    ],
  },
];

interface Props {
  draft: PlatformDraft;
  faults: PlatformFaults;
  isNew: boolean;
  onChange: (patch: Partial<PlatformDraft>) => void;
}

export function PlatformFields({ draft, faults, isNew, onChange }: Props) {
  const fieldProps = (field: Field) => ({
    error: faults[field],
    autoComplete: 'off',
    value: draft[field],
    onChange: (text: string) => onChange({ [field]: text }),
  });
  return (
    <>
      <TextField label="Name" maxLength={120} {...fieldProps('name')} />
      {isNew && (
        <TextField
          label="Id"
          hint="Short, as deliveries and other programs name it. It cannot be changed later."
          autoCapitalize="none"
          spellCheck={false}
          maxLength={64}
          {...fieldProps('id')}
        />
      )}
      {sayGroups(useUnits()).map(({ legend, note, fields }) => (
        <fieldset key={legend} className={styles.group}>
          <legend className={styles.legend}>{legend}</legend>
          {note !== undefined && <p className={settingsStyles.small}>{note}</p>}
          <div className={styles.fields}>
            {fields.map(([field, label, hint]) => (
              <TextField
                key={field}
                label={label}
                hint={hint}
                inputMode="decimal"
                maxLength={16}
                {...fieldProps(field)}
              />
            ))}
          </div>
        </fieldset>
      ))}
    </>
  );
}
