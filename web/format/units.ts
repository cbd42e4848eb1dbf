/** What the reader chose; everything is stored and calculated in km and degC. */
export interface Units {
  distance: 'km' | 'mi';
  temperature: 'C' | 'F';
}

export const metricUnits: Units = { distance: 'km', temperature: 'C' };
