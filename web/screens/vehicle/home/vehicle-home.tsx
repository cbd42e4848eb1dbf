import { useState } from 'react';
import type { VehicleDetail } from '#server/contract/vehicle.ts';
import { setsUpVehicles } from '#web/api/role-rights.ts';
import { useDepots } from '#web/api/use-fleet.ts';
import { usePerson } from '#web/api/use-session.ts';
import { formatKm } from '#web/format/format-km.ts';
import { todayAt } from '#web/format/zones.ts';
import { Button } from '#web/ui/button.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './home.module.css';
import { HomeForm } from './home-form.tsx';
import { sayAway } from './say-away.ts';
import { sayUnplaced } from './say-unplaced.ts';

/** Where a vehicle is at home, how much it drives, and on which days it cannot be taken. */
export function VehicleHome({ detail }: { detail: VehicleDetail }) {
  const units = useUnits();
  const person = usePerson();
  const depots = useDepots().data;
  const [isOpen, setOpen] = useState(false);
  const [isSaved, setSaved] = useState(false);
  if (person === null || person.role === 'shop') return null;
  const zone = depots?.find(({ id }) => id === detail.depot)?.time_zone;
  const today = todayAt(zone ?? 'UTC', new Date());
  const unplaced = sayUnplaced(detail);
  const kmPerDay = detail.assessment?.km_per_day ?? null;
  return (
    <section className={styles.home} aria-label="Home and days">
      {unplaced !== null && <p className={styles.unplaced}>{unplaced}</p>}
      <p className={styles.line}>
        <span>
          {kmPerDay === null
            ? 'How much it drives a day is not known yet.'
            : `It drives ${formatKm(kmPerDay, units)} a day, by its own readings of the last 60 days.`}{' '}
          {sayAway(detail.unavailable, today)}
        </span>
        {setsUpVehicles(person.role) && !isOpen && (
          <Button
            kind={unplaced === null ? 'quiet' : 'plain'}
            onClick={() => {
              setSaved(false);
              setOpen(true);
            }}
          >
            Change home and days
          </Button>
        )}
        <span role="status">{isSaved && !isOpen ? 'Saved.' : ''}</span>
      </p>
      {isOpen && (
        <HomeForm
          detail={detail}
          today={today}
          onDone={(saved) => {
            setSaved(saved);
            setOpen(false);
          }}
        />
      )}
    </section>
  );
}
