export const workbenchKinds = ['series', 'lives'] as const;
export type WorkbenchKind = (typeof workbenchKinds)[number];

/** What a column of the text may stand for. */
export const workbenchParts = ['x', 'y', 'exit', 'entry', 'event', 'mode', 'group', 'count'] as const;
export type WorkbenchPart = (typeof workbenchParts)[number];

/** Fewer points have no trend. */
export const leastTrendPoints = 3;
