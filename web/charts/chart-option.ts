/** What ECharts takes, as plain data: it can be tested as data and drawn anywhere. */
export type ChartOption = Readonly<Record<string, unknown>>;
