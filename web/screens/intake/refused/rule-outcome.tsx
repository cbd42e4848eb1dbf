import type { RuleReply } from '#server/contract/intake.ts';
import { formatWhole } from '#web/format/format-number.ts';
import settingsStyles from '#web/screens/settings/settings.module.css';
import { Cell, RowTable } from '#web/ui/row-table.tsx';

const shown = 5;

/** What a rule came to, or would. */
export function RuleOutcome({ reply }: { reply: RuleReply }) {
  const { dry_run: isDry, lines, good, faults, examples, let_in, stored, duplicate } = reply;
  const open = lines - (isDry ? good : let_in);
  return (
    <div className={settingsStyles.stack}>
      <p role="status">
        <strong>
          {isDry
            ? `${formatWhole(good)} of ${formatWhole(lines)} would go in.`
            : `${formatWhole(let_in)} went in: ${formatWhole(stored)} stored, ${formatWhole(duplicate)} there already.`}
        </strong>{' '}
        {open > 0 &&
          `${formatWhole(open)} ${isDry ? 'would stay' : 'stay'} open: ${faults
            .slice(0, shown)
            .map((fault) => `${fault.fault} (${formatWhole(fault.lines)})`)
            .join('; ')}.`}
      </p>
      {isDry && (
        <RowTable label="The first lines as the rule makes them">
          <thead>
            <tr>
              <th scope="col">line</th>
              <th scope="col" data-words>
                as a reading
              </th>
            </tr>
          </thead>
          <tbody>
            {examples.slice(0, shown).map((one) => (
              <tr key={one.id}>
                <th scope="row">{formatWhole(one.line)}</th>
                <Cell label="as a reading" isWords>
                  {one.errors.length > 0
                    ? one.errors.map(({ field, message }) => `${field} ${message}`.trim()).join('; ')
                    : sayFields(one.reading ?? {})}
                </Cell>
              </tr>
            ))}
          </tbody>
        </RowTable>
      )}
    </div>
  );
}

const sayFields = (reading: Record<string, unknown>): string =>
  Object.entries(reading)
    .map(([field, value]) => `${field} ${Array.isArray(value) ? value.join(' ') : String(round(value))}`)
    .join(', ');

const round = (value: unknown): unknown => (typeof value === 'number' ? Number(value.toPrecision(9)) : value);
