import { useState } from 'react';
import type { Look, SeenColumn } from '#server/contract/looks.ts';
import type { ColumnTake, Mapping } from '#server/contract/mappings.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { Button } from '#web/ui/button.tsx';
import { Cell, RowTable } from '#web/ui/row-table.tsx';
import { BareSelect } from './bare-select.tsx';
import styles from './bring.module.css';
import { setTake, setUnit } from './change-mapping.ts';
import { doubtsAt, doubtsOf, lacksAt } from './place-lack.ts';
import { Samples } from './samples.tsx';
import { Remarks } from './step.tsx';
import { sayFields, takesOf, takeWords } from './take-words.ts';
import { UnitSelect } from './unit-select.tsx';

interface Props {
  look: Look;
  mapping: Mapping;
  onChange: (mapping: Mapping) => void;
}

/** So many columns stay in sight whether they are taken or not. */
const mostShown = 24;
const leftOut = 'left out';

/** What each column is taken for, and why; those that are left out are quiet. */
export function ColumnsPart({ look, mapping, onChange }: Props) {
  const [showsAll, setShowsAll] = useState(false);
  const takenBy = new Map(mapping.columns.map((one) => [one.column, one]));
  const seen = new Set(look.columns.map(({ column }) => column));
  const absent = mapping.columns.filter(({ column }) => !seen.has(column));
  const isFolded = !showsAll && look.columns.length > mostShown;
  const shown = isFolded ? look.columns.filter(({ column }) => takenBy.has(column)) : look.columns;
  const take = ({ column, guess }: SeenColumn, value: ColumnTake | typeof leftOut) =>
    onChange(
      setTake(mapping, column, value === leftOut ? null : value, guess?.takes === value ? guess.unit : null),
    );
  return (
    <>
      <Remarks doubts={doubtsAt(look, 'columns')} lacks={lacksAt(look, 'columns')} />
      <RowTable label="Columns of the file">
        <thead>
          <tr>
            <th scope="col">Column</th>
            <th scope="col" data-words>
              First cells
            </th>
            <th scope="col" data-words>
              Taken for
            </th>
            <th scope="col" data-words>
              Unit
            </th>
            <th scope="col" data-words>
              Why
            </th>
          </tr>
        </thead>
        <tbody>
          {shown.map((one) => {
            const taken = takenBy.get(one.column);
            return (
              <tr key={one.column} className={taken === undefined ? styles.quiet : undefined}>
                <th scope="row">{one.column}</th>
                <Cell label="First cells" isWords>
                  <Samples samples={one.samples} />
                </Cell>
                <Cell label="Taken for" isWords>
                  <BareSelect<ColumnTake | typeof leftOut>
                    label={`${one.column} is taken for`}
                    value={taken?.takes ?? leftOut}
                    options={[
                      { value: leftOut, label: leftOut },
                      ...takesOf[mapping.layout].map((value) => ({ value, label: takeWords[value] })),
                    ]}
                    onChange={(value) => take(one, value)}
                  />
                </Cell>
                <Cell label="Unit" isWords>
                  <UnitSelect
                    of={one.column}
                    take={taken?.takes ?? null}
                    unit={taken?.unit ?? null}
                    form={mapping.time.form}
                    samples={one.samples}
                    onChange={(unit) => onChange(setUnit(mapping, one.column, unit))}
                  />
                </Cell>
                <Cell label="Why" isWords>
                  {taken?.takes === one.guess?.takes && sayFields(one.why)}
                  <Remarks doubts={doubtsOf(look, one.column)} />
                </Cell>
              </tr>
            );
          })}
          {absent.map(({ column, takes }) => (
            <tr key={`absent ${column}`}>
              <th scope="row">{column}</th>
              <td colSpan={4} data-missing>
                would be the {takeWords[takes]}, but is not in this file{' '}
                <Button kind="quiet" onClick={() => onChange(setTake(mapping, column, null))}>
                  Leave it out
                </Button>
              </td>
            </tr>
          ))}
        </tbody>
      </RowTable>
      {look.columns.length > mostShown && (
        <div>
          <Button kind="quiet" onClick={() => setShowsAll(!showsAll)}>
            {isFolded
              ? `Show the ${formatWhole(look.columns.length - shown.length)} columns that are left out`
              : 'Show only columns that are taken'}
          </Button>
        </div>
      )}
    </>
  );
}
