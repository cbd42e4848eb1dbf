import type { Judged, PanResult } from './diagnosis-model.ts';

export type Debris = 'none' | 'fine' | 'lining' | 'metal';

/**
 * Judgement of what lies in the pan.
 *
 * none, fine -> passed (a fine grey paste on magnet and pan is usual); lining, metal -> failed.
 *
 * @param debris what was found in the pan and on its magnet
 * @returns the judgement, and whether cooler and lines must be dealt with
 * Source: common practice, no source. Edges, errors: none.
 * @example judgePan('fine').verdict // 'passed'
 */
export function judgePan(debris: Debris): Judged<PanResult, { coolerDue: boolean }> {
  switch (debris) {
    case 'none':
      return { result: 'pan_clean', verdict: 'passed', lookNext: [], figures: { coolerDue: false } };
    case 'fine':
      return { result: 'pan_fine', verdict: 'passed', lookNext: [], figures: { coolerDue: false } };
    case 'lining':
      return {
        result: 'pan_lining',
        verdict: 'failed',
        lookNext: ['cooler', 'converter'],
        figures: { coolerDue: true },
      };
    case 'metal':
      return {
        result: 'pan_metal',
        verdict: 'failed',
        lookNext: ['cooler', 'converter', 'other_metal'],
        figures: { coolerDue: true },
      };
  }
}
