import type { DepotInput, LifeInput, PlatformInput, VehicleInput } from '#server/contract/fleet.ts';
import type { Fleet } from './build-fleet.ts';
import { DAY_MS, momentText } from './calendar.ts';
import { depots } from './depots.ts';
import { platforms } from './platforms.ts';
import type { Vehicle } from './vehicle.ts';
import { describeAbsence, describeWorkdays } from './work-calendar.ts';

/** What the operator's office would enter before the first reading. */
export interface SetUp {
  platforms: PlatformInput[];
  depots: DepotInput[];
  vehicles: VehicleInput[];
  lives: LifeInput[];
}

export function describeSetUp({ vehicles, window, scenario }: Fleet): SetUp {
  const known = vehicles.filter((vehicle) => vehicle.registered);
  return {
    platforms: platforms.map(
      ({ id, name, limitRpm, lifeKm, reference, solenoid, converter, engine, costs, inspectionHours }) => ({
        id,
        name,
        limit_rpm: limitRpm,
        life_km: lifeKm,
        reference: { duty_pct: reference.dutyPct, load_pct: reference.loadPct, fluid_c: reference.fluidC },
        solenoid: {
          ohm: solenoid.ohm,
          supply_v: solenoid.supplyV,
          wiring_ohm: solenoid.wiringOhm,
          tolerance_pct: solenoid.tolerancePct,
        },
        converter,
        reference_torque_nm: engine.peakTorqueNm,
        costs,
        inspection_hours: inspectionHours,
      }),
    ),
    depots: depots.map((depot) => ({
      id: depot.id,
      name: depot.name,
      bays: depot.bays,
      time_zone: 'UTC',
      ...describeWorkdays(depot, window.endDay),
    })),
    vehicles: known.map(({ unit, depot, platform, retired }) => ({
      id: unit,
      depot: depot.id,
      platform: platform.id,
      ...(retired ? { retired } : describeAbsence(unit, scenario.seed, window.endDay)),
    })),
    lives: known.flatMap(listLives),
  };
}

function listLives(vehicle: Vehicle): LifeInput[] {
  const earlier = vehicle.earlierLives.map(
    (life): LifeInput => ({
      vehicle: vehicle.unit,
      fitted_km: life.fittedKm,
      source: life.source,
      removed_km: life.removedKm,
      ended: life.ended,
      mode: life.mode,
      supplier: life.supplier,
    }),
  );
  const [present, next] = vehicle.lives;
  if (present === undefined || !present.reported) return [];
  const changeReported = next?.reported ?? present.ended !== null;
  const own = (life: typeof present, withEnd: boolean): LifeInput => ({
    vehicle: vehicle.unit,
    fitted_km: life.fittedKm,
    source: life.source,
    supplier: life.supplier,
    ...(life.fittedDay === null ? {} : { fitted_at: momentText(life.fittedDay * DAY_MS) }),
    ...(withEnd && life.ended !== null && life.removedKm !== null && life.removedDay !== null
      ? {
          removed_km: life.removedKm,
          removed_at: momentText((life.removedDay + 1) * DAY_MS),
          ended: life.ended,
          mode: life.mode,
        }
      : {}),
  });
  const lives = [...earlier, own(present, changeReported)];
  if (next?.reported) lives.push(own(next, true));
  return lives;
}
