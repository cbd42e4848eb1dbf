import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import type { Preview } from '#server/contract/settings.ts';
import { useDepotName } from '#web/api/use-fleet-names.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { Button } from '#web/ui/button.tsx';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import styles from './effect.module.css';

const fewRows = 8;

/** The vehicles that move most, each with where it stood. */
export function MovedTable({ preview: { moved, regraded, reranked } }: { preview: Preview }) {
  const depotName = useDepotName();
  const [showsAll, setShowsAll] = useState(false);
  if (moved.length === 0) return null;
  const shown = showsAll ? moved : moved.slice(0, fewRows);
  const all = Math.max(regraded, reranked);
  return (
    <div className={styles.moved}>
      <table>
        <caption className="only-spoken">Vehicles that move most</caption>
        <thead>
          <tr>
            <th scope="col">Vehicle</th>
            <th scope="col">Grade</th>
            <th scope="col">Place</th>
          </tr>
        </thead>
        <tbody>
          {shown.map((one) => (
            <tr key={one.vehicle}>
              <td>
                <Link to="/vehicles/$vehicle" params={{ vehicle: one.vehicle }}>
                  {one.vehicle}
                </Link>
                {one.depot !== null && <small>{depotName(one.depot)}</small>}
              </td>
              <td>
                <span className={styles.grades}>
                  {one.grade_before !== one.grade && (
                    <>
                      <GradeMark grade={one.grade_before} />
                      <span>→</span>
                    </>
                  )}
                  <GradeMark grade={one.grade} />
                </span>
              </td>
              <td>
                {one.rank_before === one.rank
                  ? formatWhole(one.rank)
                  : `${formatWhole(one.rank_before)} → ${formatWhole(one.rank)}`}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {moved.length > fewRows && (
        <p className={styles.soft}>
          <Button kind="quiet" aria-expanded={showsAll} onClick={() => setShowsAll(!showsAll)}>
            {showsAll ? 'Show fewer' : `Show ${moved.length}`}
          </Button>
          {all > moved.length && ` of ${formatWhole(all)} that move`}
        </p>
      )}
    </div>
  );
}
