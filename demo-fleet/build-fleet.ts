import { fitConverters } from './build-vehicle.ts';
import { dayOf } from './calendar.ts';
import { depots } from './depots.ts';
import { summariseDutyCycle, type TypicalPoint } from './duty-cycle.ts';
import { kmAt, planDriving, stopDriving, type Window } from './plan.ts';
import { platforms } from './platforms.ts';
import { Random } from './random.ts';
import type { FaultOrder, Scenario } from './scenario.ts';
import type { GatewayKind, Vehicle } from './vehicle.ts';
import { createWeather, type Weather } from './weather.ts';

export interface Fleet {
  scenario: Scenario;
  window: Window;
  vehicles: Vehicle[];
}

function windowOf({ end, months }: Scenario): Window {
  const endMs = Math.floor(end.getTime() / 1000) * 1000;
  const endDay = dayOf(endMs);
  return { endMs, endDay, windowDay: endDay - Math.round(months * 30.44) };
}

/** All vehicles with their plans and converters worn to the end; no reading is made yet. */
export function buildFleet(scenario: Scenario): Fleet {
  const { seed } = scenario;
  const window = windowOf(scenario);
  const random = new Random(`${seed}|${scenario.name}|fleet`);
  const weather = new Map<string, Weather>();
  for (const depot of depots)
    weather.set(depot.id, createWeather(depot, window.windowDay - 1000, window.endDay, seed));
  const cycles = new Map<string, TypicalPoint[]>();
  const slots = drawSlots(scenario, random);
  const orders = assignOrders(scenario, slots, random);
  const healthy = random.shuffle([...slots.keys()].filter((i) => !orders.has(i)));
  const take = (count: number) => new Set(healthy.splice(0, count));
  const unregistered = take(scenario.unregistered);
  const odometerChanged = take(scenario.odometerChanges);
  const retired = take(scenario.retired);
  const quiet = take(scenario.quietGateways);
  const nuisance = take(Math.floor(scenario.vehicles / 60));
  const imperial = new Set(random.shuffle([...slots.keys()]).slice(0, scenario.imperial));

  const vehicles = slots.map(({ platform, depot, unit }, index): Vehicle => {
    const own = `${seed}|${scenario.name}|${unit}`;
    const draw = new Random(`${own}|traits`);
    const order = orders.get(index) ?? null;
    const key = `${platform.id}|${depot.id}`;
    const points = cycles.get(key) ?? summariseDutyCycle(platform, depot, seed);
    cycles.set(key, points);
    const ownWeather = weather.get(depot.id);
    if (ownWeather === undefined) throw new Error(`no weather for depot ${depot.id}`);
    const { windowDay, endDay } = window;
    const days = endDay - windowDay;
    const arrival =
      order?.fate.at === 'arrival'
        ? endDay - Math.round(draw.between(...order.fate.daysBeforeEnd))
        : windowDay;
    const retiredDay = retired.has(index) ? windowDay + Math.round(days * draw.between(0.5, 0.9)) : endDay;
    const step = scenario.platformStep;
    const gatewayDraw = draw.unit();
    const { speeds, plain } = scenario.gatewayShares;
    const gateway: GatewayKind =
      gatewayDraw < speeds ? 'speeds' : gatewayDraw < speeds + plain ? 'plain' : 'full';
    const quietFrom = windowDay + Math.round(days * draw.between(0.2, 0.9));
    const stepDay = step === null ? 0 : endDay - step.daysBeforeEnd + draw.integer(0, 1);
    const stepRpm = (step?.rpm ?? 0) + draw.normal(0, 0.8);
    const codeFrom = windowDay + Math.round(days * draw.between(0.1, 0.9));
    const offsetShare = draw.between(0.2, 0.6);
    const odometerKm = Math.round(draw.between(...platform.odometerKm));
    const plan = planDriving(platform, window, odometerKm, own);
    if (retired.has(index)) stopDriving(plan, retiredDay);
    const draft = {
      unit,
      platform,
      depot,
      gateway: imperial.has(index) ? ('imperial' as const) : gateway,
      registered: !unregistered.has(index),
      plan,
      weather: ownWeather,
      points,
      activeFromDay: arrival,
      activeToDay: retiredDay,
      retired: retired.has(index),
      quiet: quiet.has(index)
        ? { fromDay: quietFrom, toDay: draw.chance(0.4) ? endDay : quietFrom + draw.integer(20, 60) }
        : null,
      odometerStep: odometerChanged.has(index)
        ? { day: windowDay + Math.round(days * 0.55), offsetKm: -Math.round(offsetShare * odometerKm) }
        : null,
      softwareStep: step !== null && step.platform === platform.id ? { day: stepDay, rpm: stepRpm } : null,
      nuisanceCode: nuisance.has(index)
        ? { code: 'P0128', fromDay: codeFrom, toDay: codeFrom + draw.integer(5, 25) }
        : null,
      slipBiasRpm: draw.normal(0, 1),
      random: new Random(`${own}|readings`),
    };
    const vehicle: Vehicle = { ...draft, ...fitConverters(draft, order, window, own) };
    const life = vehicle.lives.at(-1);
    if (vehicle.retired && life !== undefined) {
      life.ended = 'retired';
      life.removedDay = retiredDay;
      life.removedKm = Math.round(kmAt(plan, retiredDay + 1));
    }
    return vehicle;
  });
  return { scenario, window, vehicles };
}

function drawSlots(scenario: Scenario, random: Random) {
  const counters = new Map<string, number>();
  let bound = 0;
  const bounds = platforms.map((platform) => {
    bound += platform.share;
    return { platform, upTo: Math.round(bound * scenario.vehicles) };
  });
  return Array.from({ length: scenario.vehicles }, (_, i) => {
    const platform = bounds.find(({ upTo }) => i < upTo)?.platform ?? platforms[0];
    if (platform === undefined) throw new Error('drawSlots requires at least one platform');
    const number = (counters.get(platform.id) ?? 0) + 1;
    counters.set(platform.id, number);
    return {
      platform,
      depot: random.pick(depots),
      unit: `${platform.unitPrefix}${String(number).padStart(3, '0')}`,
    };
  });
}

function assignOrders(
  scenario: Scenario,
  slots: readonly { platform: { id: string } }[],
  random: Random,
): Map<number, FaultOrder> {
  const free = random.shuffle([...slots.keys()]);
  const orders = new Map<number, FaultOrder>();
  for (const order of scenario.orders)
    for (let i = 0; i < order.count; i++) {
      const place = free.findIndex(
        (slot) => order.platform === undefined || slots[slot]?.platform.id === order.platform,
      );
      const [slot] = place < 0 ? [] : free.splice(place, 1);
      if (slot === undefined)
        throw new Error(`scenario ${scenario.name} has more faults than vehicles for them`);
      orders.set(slot, order);
    }
  return orders;
}
