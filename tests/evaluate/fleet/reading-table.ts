/** Codes of the column `code`; the texts are from SAE J2012, from memory. */
export const TROUBLE_CODES = ['', 'P0741', 'P0562'] as const;
/** Stands in `gear` where none is sent. */
export const NO_GEAR = 127;

/** Readings of a fleet as columns of numbers; NaN where a gateway sends nothing. */
export class ReadingTable {
  rows = 0;
  readonly vehicle: Uint16Array;
  /** Seconds since the first day of the fleet. */
  readonly second: Uint32Array;
  readonly odometerKm: Float64Array;
  readonly slipRpm: Float64Array;
  readonly dutyPct: Float64Array;
  readonly fluidC: Float64Array;
  readonly loadPct: Float64Array;
  readonly torquePct: Float64Array;
  readonly speedKmh: Float64Array;
  readonly gear: Int8Array;
  /** 0 no, 1 yes, 2 not sent. */
  readonly shifting: Uint8Array;
  readonly code: Uint8Array;
  /** Days of the fleet on which a reading arrives, first time and, where not 0xffff, once more. */
  readonly arrivalDay: Uint16Array;
  readonly againDay: Uint16Array;

  constructor(capacity: number) {
    this.vehicle = new Uint16Array(capacity);
    this.second = new Uint32Array(capacity);
    this.odometerKm = new Float64Array(capacity);
    this.slipRpm = new Float64Array(capacity);
    this.dutyPct = new Float64Array(capacity);
    this.fluidC = new Float64Array(capacity);
    this.loadPct = new Float64Array(capacity);
    this.torquePct = new Float64Array(capacity);
    this.speedKmh = new Float64Array(capacity);
    this.gear = new Int8Array(capacity);
    this.shifting = new Uint8Array(capacity);
    this.code = new Uint8Array(capacity);
    this.arrivalDay = new Uint16Array(capacity);
    this.againDay = new Uint16Array(capacity).fill(0xffff);
  }
}
