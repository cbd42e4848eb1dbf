export * from '#server/engine/platform/estimate-common-movement.ts';

/** Nothing moves a whole platform. */
export const estimateCommonMovement = () => [];
