import type { Replay, RuleScore } from '#server/contract/replay.ts';
import { useFleetNames } from '#web/api/use-fleet-names.ts';
import { useReplay, useReplays } from '#web/api/use-replay.ts';
import parts from '#web/ui/parts.module.css';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { SelectField } from '#web/ui/select-field.tsx';
import { TableCsv } from '#web/ui/table-csv.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import { hasSameLimits, isLike, listBeside, listChanges } from './compare-replays.ts';
import { FiguresBeside } from './figures-beside.tsx';
import { listFigures } from './list-figures.ts';
import styles from './replay.module.css';
import { sayScope } from './say-replay.ts';

interface Props {
  replay: Replay;
  compare: number | null;
  onChoose: (id: number | null) => void;
}

/** The list's figures of two replays beside one another. */
export function ComparePart({ replay, compare, onChoose }: Props) {
  const names = useFleetNames();
  const lines = (useReplays().data?.replays ?? []).filter(
    ({ id, score }) => id !== replay.id && score !== null,
  );
  const other = useReplay(compare);
  const options = lines.map(({ id, request }) => ({
    value: String(id),
    label: `${id}: ${sayScope(request, names)}${request.note === '' ? '' : `, ${request.note}`}`,
  }));
  const isListed = compare === null || lines.some(({ id }) => id === compare);
  return (
    <section className={parts.part}>
      <h2>Beside another replay</h2>
      {options.length === 0 && compare === null ? (
        <p className={styles.words}>
          There is no other yet. Run this period again with another threshold or limit, and the two stand here
          side by side.
        </p>
      ) : (
        <div className={styles.note}>
          <SelectField
            label="Which one"
            value={compare === null ? '' : String(compare)}
            options={[
              { value: '', label: 'none' },
              ...(isListed ? [] : [{ value: String(compare), label: `replay ${compare}` }]),
              ...options,
            ]}
            onChange={(id) => onChoose(id === '' ? null : Number(id))}
          />
        </div>
      )}
      {other.isError && compare !== null && <ProblemNote error={other.error} />}
      {compare !== null && other.data !== undefined && <Beside one={replay} other={other.data} />}
    </section>
  );
}

const listScore = ({ result }: Replay): RuleScore | undefined =>
  result?.scores.find(({ rule }) => rule === 'list');

function Beside({ one, other }: { one: Replay; other: Replay }) {
  const units = useUnits();
  const names = useFleetNames();
  const [a, b] = [listScore(one), listScore(other)];
  if (a === undefined || b === undefined) return <p>Replay {other.id} has no figures to compare with.</p>;
  const changes = listChanges(b, a, units);
  const others = listFigures(b, units);
  return (
    <>
      {!isLike(one.request, other.request) && (
        <p className={styles.warning} role="status">
          Replay {other.id} is of {sayScope(other.request, names)}: another period, horizon or other vehicles,
          so its figures are not alike.
        </p>
      )}
      {!hasSameLimits(one.request, other.request) && (
        <p className={styles.warning} role="status">
          Replay {other.id} is judged by other limits: what came is not the same in both, nor how soon it was
          seen.
        </p>
      )}
      <TableCsv name="two replays" table={() => listBeside([one.id, other.id], [a, b], units)} />
      <FiguresBeside
        label="Two replays"
        corner="the list"
        heads={[
          { key: 'this', words: 'this one' },
          { key: 'other', words: `replay ${other.id}` },
          { key: 'less', words: 'this one less the other' },
        ]}
        rows={listFigures(a, units).map(([name, value], i) => ({
          name,
          values: [value, others[i]?.[1] ?? '', changes[i] ?? ''],
        }))}
      />
    </>
  );
}
