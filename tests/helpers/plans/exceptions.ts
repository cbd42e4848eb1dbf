export interface Exception {
  what: string;
  why: string;
  /** of the statement, without quotes and in one line */
  statement: RegExp;
  /** of what crosses vehicles in it */
  scan: RegExp;
}

const ofFleet = /of (assessments|reading_spans): /;

/** Statements of hot paths that may look across vehicles, one by one. */
export const exceptions: readonly Exception[] = [
  {
    what: 'count the list by grade',
    why: 'what the list says first is how many vehicles there are of each grade; one row a vehicle',
    statement: /^select assessments\.grade, count\(\*\), max\(assessments\.as_of\)/,
    scan: ofFleet,
  },
  {
    what: 'keys of the list in order',
    why: 'the list orders the fleet; one row a vehicle, the page itself is then read by its keys',
    statement: /^select assessments\.vehicle, vehicles\.unit from assessments/,
    scan: ofFleet,
  },
  {
    what: 'day of the standings of a week ago',
    why: 'the newest day that any vehicle stood on: the end of an index, no rows',
    statement: /select max\(day\) from standings where day <= /,
    scan: /of standings: \(day <= /,
  },
  {
    what: 'whether standings of today are written',
    why: 'one entry of an index, once after each ranking',
    statement: /^select from standings where day = \$1 limit 1/,
    scan: /of standings: \(day = /,
  },
  {
    what: 'which platforms are due',
    why: 'first and last reading of each vehicle, summed by platform; one row a vehicle, once a run',
    statement: /sum\(extract\(epoch from .*last_at - .*first_at/,
    scan: ofFleet,
  },
  {
    what: 'rank the fleet',
    why: 'a rank is a place among all; one row a vehicle, once a run',
    statement:
      /^select assessments\.vehicle, vehicles\.unit, vehicles\.depot, assessments\.rank, .*assessments\.facts/,
    scan: ofFleet,
  },
  {
    what: 'read the words of shops that keep the list calm',
    why: 'the last packets of a few vehicles, over the fleet, once a run; each vehicle is then read by its key',
    statement: /^select p\.vehicle, .* from packets p .*where p\.calm_until_km is not null/,
    scan: /: \(+vehicle = p\.vehicle\)/,
  },
  {
    what: 'note which packets keep the list calm',
    why: 'takes back what any vehicle had; one row a vehicle, once a run',
    statement: /^update assessments a set calm_packet = /,
    scan: ofFleet,
  },
];
