import type { ReactNode } from 'react';
import type { Platform } from '#server/contract/fleet.ts';
import { temperatureUnit, toReaderTemperature } from '#web/format/format-temperature.ts';
import type { Units } from '#web/format/units.ts';
import settingsStyles from '#web/screens/settings/settings.module.css';
import { TextField } from '#web/ui/text-field.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import type { PlatformDraft, PlatformFaults } from './platform-draft.ts';
import styles from './platform-fields.module.css';
import { sayExpectedCurrent } from './say-expected-current.ts';
import { usualFigures } from './shop-groups.ts';

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
  ohm: 'solenoid.ohm',
  supply_v: 'solenoid.supply_v',
  wiring_ohm: 'solenoid.wiring_ohm',
  tolerance_pct: 'solenoid.tolerance_pct',
  price: 'converter.price',
  core_deposit: 'converter.core_deposit',
  spare_cores: 'converter.spare_cores',
};

interface FieldGroup {
  legend: string;
  note?: string;
  fields: readonly [Field, label: string, hint?: string][];
  /** what follows from the fields */
  after?: ReactNode;
}

const sayGroups = (units: Units, current: string | null, life: string | null): FieldGroup[] => [
  {
    legend: 'When a clutch counts as failed',
    fields: [
      ['limit_rpm', 'Limit, rpm of slip at the reference point'],
      [
        'life_km',
        `Expected life of a converter, ${units.distance}`,
        'For failures without notice, until the fleet has 3 failures on record to fit a life from. Empty: not known, and none are counted till then.',
      ],
    ],
    after: life,
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
  {
    legend: 'Solenoid of the clutch',
    note: 'For the test step of the shop that measures its current. Leave all four empty where they are not known.',
    fields: [
      ['ohm', `Coil at ${Math.round(toReaderTemperature(20, units))} ${temperatureUnit(units)}, ohm`],
      ['supply_v', 'Supply, V'],
      [
        'wiring_ohm',
        'Wiring and driver, ohm',
        `With connectors. Empty: ${usualFigures.wiring_ohm} (common practice, no source).`,
      ],
      [
        'tolerance_pct',
        'Tolerance, %',
        `How far a current may lie from the expected. Empty: ${usualFigures.tolerance_pct}, our own choice.`,
      ],
    ],
    after: current,
  },
  {
    legend: 'Converter',
    note: 'In the currency of the fleet. The packet says by these what cutting an old unit open costs. Leave all three empty to go by the last one bought.',
    fields: [
      ['price', 'Price'],
      ['core_deposit', 'Core deposit', 'Held until the old unit comes back.'],
      [
        'spare_cores',
        'Spare cores at hand',
        `Old units that can go back in place of the one removed. Empty: ${usualFigures.spare_cores}.`,
      ],
    ],
  },
];

interface Props {
  draft: PlatformDraft;
  faults: PlatformFaults;
  isNew: boolean;
  /** as the fields have it; undefined while a figure of it is wrong */
  solenoid: Platform['solenoid'] | undefined;
  /** which life the list reckons with, as a sentence */
  life: string | null;
  onChange: (patch: Partial<PlatformDraft>) => void;
}

export function PlatformFields({ draft, faults, isNew, solenoid, life, onChange }: Props) {
  const units = useUnits();
  const current = solenoid === undefined ? null : sayExpectedCurrent(solenoid);
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
      {sayGroups(units, current, life).map(({ legend, note, fields, after }) => (
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
          {after != null && <p className={settingsStyles.small}>{after}</p>}
        </fieldset>
      ))}
    </>
  );
}
