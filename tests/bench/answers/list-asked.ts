import { unitOf } from '#tests/bench/fleet/made-history.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';

const PAGE = 100;
/** `web/api/use-ranking.ts` asks for so many at a time. */
const SCREEN_PAGE = 200;

export interface Asked {
  name: string;
  paths: string[];
  /** p99 at the most, ms */
  wanted?: number;
}

/** What people ask for: the list as it opens, any page of it and through filters, vehicles and their series. */
export function listAsked(vehicles: number): Asked[] {
  const { uniform } = seededRandom(9);
  const whole = (below: number) => Math.floor(uniform() * below);
  const many = (make: () => string) => Array.from({ length: 400 }, make);
  const pages = Math.ceil(vehicles / PAGE);
  const filters = [
    () => `&offset=${PAGE * whole(pages)}`,
    () => `&offset=${PAGE * whole(pages)}&sort=slip`,
    () => '&grade=hold,book',
    () => '&grade=hold,book&booking=none',
    () => `&depot=depot-${whole(10)}`,
    () => `&platform=platform-${whole(3)}&offset=${PAGE * whole(Math.ceil(pages / 4))}`,
    () => `&q=${10 + whole(90)}`,
    () => '&changed=worse',
  ];
  const first = `/api/ranking?limit=${PAGE}`;
  const unit = () => unitOf(whole(vehicles));
  return [
    { name: `list, first page of ${PAGE}`, paths: [first], wanted: 60 },
    {
      name: `list, first page of ${SCREEN_PAGE}, as the screen asks`,
      paths: [`/api/ranking?limit=${SCREEN_PAGE}`],
    },
    {
      name: 'list, pages and filters',
      paths: many(() => `${first}${filters[whole(filters.length)]?.() ?? ''}`),
      wanted: 60,
    },
    { name: 'list, within another horizon', paths: [`${first}&horizon_km=8000`] },
    { name: 'vehicle', paths: many(() => `/api/vehicles/${unit()}`) },
    { name: 'series', paths: many(() => `/api/vehicles/${unit()}/series`), wanted: 100 },
  ];
}
