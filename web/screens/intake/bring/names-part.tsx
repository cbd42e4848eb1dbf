import { useState } from 'react';
import type { Look } from '#server/contract/looks.ts';
import type { MappedField, Mapping } from '#server/contract/mappings.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { Button } from '#web/ui/button.tsx';
import { Cell, RowTable } from '#web/ui/row-table.tsx';
import { BareSelect } from './bare-select.tsx';
import styles from './bring.module.css';
import { setNameField, setNameUnit } from './change-mapping.ts';
import { doubtsOf, lacksAt } from './place-lack.ts';
import { Samples } from './samples.tsx';
import { Remarks } from './step.tsx';
import { fieldWords } from './take-words.ts';
import { UnitSelect } from './unit-select.tsx';

interface Props {
  look: Look;
  mapping: Mapping;
  onChange: (mapping: Mapping) => void;
}

const mostShown = 24;
const leftOut = 'left out';
const fields = Object.keys(fieldWords) as MappedField[];

/** Of a layout with one row a value: the names that values come under, and what each is taken for. */
export function NamesPart({ look, mapping, onChange }: Props) {
  const [showsAll, setShowsAll] = useState(false);
  const takenBy = new Map(mapping.names.map((one) => [one.name, one]));
  const isFolded = !showsAll && look.names.length > mostShown;
  const shown = isFolded ? look.names.filter(({ name }) => takenBy.has(name)) : look.names;
  return (
    <>
      <h3>Values by their name</h3>
      <Remarks lacks={lacksAt(look, 'names')} />
      <RowTable label="Names of the values">
        <thead>
          <tr>
            <th scope="col">Name</th>
            <th scope="col">Values</th>
            <th scope="col" data-words>
              First values
            </th>
            <th scope="col" data-words>
              Taken for
            </th>
            <th scope="col" data-words>
              Unit
            </th>
          </tr>
        </thead>
        <tbody>
          {shown.map(({ name, values, samples, guess }) => {
            const taken = takenBy.get(name);
            return (
              <tr key={name} className={taken === undefined ? styles.quiet : undefined}>
                <th scope="row">
                  {name}
                  <Remarks doubts={doubtsOf(look, name)} />
                </th>
                <Cell label="Values">{formatWhole(values)}</Cell>
                <Cell label="First values" isWords>
                  <Samples samples={samples} />
                </Cell>
                <Cell label="Taken for" isWords>
                  <BareSelect<MappedField | typeof leftOut>
                    label={`${name} is taken for`}
                    value={taken?.field ?? leftOut}
                    options={[
                      { value: leftOut, label: leftOut },
                      ...fields.map((value) => ({ value, label: fieldWords[value] })),
                    ]}
                    onChange={(value) =>
                      onChange(
                        setNameField(
                          mapping,
                          name,
                          value === leftOut ? null : value,
                          guess?.field === value ? guess.unit : null,
                        ),
                      )
                    }
                  />
                </Cell>
                <Cell label="Unit" isWords>
                  <UnitSelect
                    of={name}
                    take={taken?.field ?? null}
                    unit={taken?.unit ?? null}
                    samples={samples}
                    onChange={(unit) => onChange(setNameUnit(mapping, name, unit))}
                  />
                </Cell>
              </tr>
            );
          })}
        </tbody>
      </RowTable>
      {look.names.length > mostShown && (
        <div>
          <Button kind="quiet" onClick={() => setShowsAll(!showsAll)}>
            {isFolded
              ? `Show the ${formatWhole(look.names.length - shown.length)} names that are left out`
              : 'Show only names that are taken'}
          </Button>
        </div>
      )}
    </>
  );
}
