import type { Look } from './look.ts';

/** The tooltip of a chart whose columns are read one at a time; what it says is the chart's own. */
export const axisTooltip = (look: Look) => ({
  trigger: 'axis' as const,
  axisPointer: { type: 'line' as const, lineStyle: { color: look.hairlineStrong, type: 'dotted' as const } },
  backgroundColor: look.paper,
  borderColor: look.hairlineStrong,
  borderRadius: 0,
  padding: [6, 10],
  textStyle: { color: look.ink, fontFamily: look.fontFamily, fontSize: look.smallPx },
  extraCssText: 'box-shadow: none;',
});

/** Which column a tooltip is about; -1 where none. */
export const firstIndex = (items: { dataIndex: number } | readonly { dataIndex: number }[]): number =>
  ('dataIndex' in items ? items : items[0])?.dataIndex ?? -1;
