/** Inner edges of the exposure histograms: fluid temperature, degC, and engine load, %. */
export const fluidEdgesC = [60, 70, 80, 90, 100, 110] as const;
export const loadEdgesPct = [20, 35, 50, 65, 80] as const;
