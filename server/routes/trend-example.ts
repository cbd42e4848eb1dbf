import type { TrendReply } from '#server/contract/analysis.ts';

const reply: TrendReply = {
  n: 20,
  ols: {
    slope: 0.0014661654135338345,
    intercept: 8.085714285714285,
    se_slope: 0.0001710669065990732,
    se_intercept: 0.9505380038262464,
    r2: 0.8031864693760472,
  },
  theil_sen: {
    slope: 0.0015714285714285715,
    intercept: 5.535714285714286,
    low: 0.001,
    high: 0.002,
    confidence: 0.95,
  },
  mann_kendall: {
    s: 143,
    var_s: 935.6666666666666,
    z: 4.642241881899365,
    p: 3.446490528253667e-6,
    tau: 0.7754123638551336,
  },
  hamed_rao: { var_s: 2172.524506317288, z: 3.046533810969177, p: 0.0023149644185848123 },
  hinge: {
    break: 4512.168141592917,
    low: 4161.387808830005,
    high: 4894.341280275172,
    before: 11.299999999999999,
    slope_after: 0.0027393939393939378,
    p_against_flat: 1.1877210394215483e-15,
  },
  level_shift: {
    last_before: 6000,
    first_after: 6500,
    low: 5500,
    high: 7000,
    before: 11.923076923076923,
    after: 20.857142857142854,
    f: 79.93443966675619,
    p: 8.26201212078929e-7,
    log_ratio: 22.152639607645565,
    favours: 'drift',
  },
  cusum: { high: 70.58700000000002, low: 0, first_alarm: 6500, target: 11, sd: 1.4826, k: 0.5, h: 5 },
  ewma: { last: 20.088212442969073, first_alarm: 6000, target: 11, sd: 1.4826, lambda: 0.2, width: 3 },
  declined: {},
};

/** Slip of one clutch every 500 km, for the description of the interface; a test holds the answer to the call's. */
export const trendExample = {
  request: {
    x: [
      0, 500, 1000, 1500, 2000, 2500, 3000, 3500, 4000, 4500, 5000, 5500, 6000, 6500, 7000, 7500, 8000, 8500,
      9000, 9500,
    ],
    y: [11, 12, 10, 11, 13, 12, 11, 10, 12, 11, 13, 14, 15, 17, 18, 19, 21, 22, 24, 25],
  },
  reply,
};
