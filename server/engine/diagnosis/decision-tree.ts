import type { TreeNode } from './diagnosis-model.ts';
import { endNodes } from './end-nodes.ts';
import { stepNodes } from './step-nodes.ts';

/**
 * The decision tree of the test steps, its root first: from what is cheap and outside to what is dear and inside.
 * Common practice, no source. Every path ends; the transmission comes out only where slip was confirmed and electrical
 * and hydraulic side passed, or where lining or metal was seen in the pan.
 */
export const decisionTree: readonly TreeNode[] = [...stepNodes, ...endNodes];
