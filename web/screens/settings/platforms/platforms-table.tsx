import { Fragment } from 'react';
import type { Platform } from '#server/contract/fleet.ts';
import { formatKm } from '#web/format/format-km.ts';
import { formatWhole, noFigure } from '#web/format/format-number.ts';
import { formatRpm } from '#web/format/format-rpm.ts';
import styles from '#web/screens/settings/settings.module.css';
import { useUnits } from '#web/ui/use-units.ts';
import { PlatformForm } from './platform-form.tsx';

interface Props {
  platforms: readonly Platform[];
  open: string | undefined;
  onToggle: (id: string) => void;
}

export function PlatformsTable({ platforms, open, onToggle }: Props) {
  const units = useUnits();
  return (
    <table className={styles.table}>
      <caption className="only-spoken">Platforms; a press on a name opens what can be changed</caption>
      <thead>
        <tr>
          <th scope="col">Name</th>
          <th scope="col">Limit</th>
          <th scope="col">Failure on the road</th>
          <th scope="col">Planned repair</th>
          <th scope="col">Inspection and lost day</th>
          <th scope="col">Inspection takes</th>
          <th scope="col" className={styles.last}>
            Expected life
          </th>
        </tr>
      </thead>
      <tbody>
        {platforms.map((platform) => {
          const { id, name, costs } = platform;
          return (
            <Fragment key={id}>
              <tr>
                <td>
                  <button
                    type="button"
                    className={styles.opener}
                    aria-expanded={open === id}
                    onClick={() => onToggle(id)}
                  >
                    <span className={styles.openerName}>{name}</span>
                    <small>{id}</small>
                  </button>
                </td>
                <td data-name="Limit">{formatRpm(platform.limit_rpm)}</td>
                <td data-name="Road failure">{formatWhole(costs.road_failure)}</td>
                <td data-name="Planned repair">{formatWhole(costs.planned_repair)}</td>
                <td data-name="Inspection">{formatWhole(costs.inspection + costs.lost_day)}</td>
                <td data-name="It takes">{platform.inspection_hours} h</td>
                <td data-name="Expected life" className={styles.last}>
                  {platform.life_km === null ? noFigure : formatKm(platform.life_km, units)}
                </td>
              </tr>
              {open === id && (
                <tr data-kind="opened">
                  <td colSpan={7} className={styles.opened}>
                    <PlatformForm stored={platform} />
                  </td>
                </tr>
              )}
            </Fragment>
          );
        })}
      </tbody>
    </table>
  );
}
