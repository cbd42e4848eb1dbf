import { describe, expect, it } from 'vitest';
import { askOf, isNarrowed, parseLivesSearch, patchLivesSearch } from './lives-search.ts';

describe('the address of the lives', () => {
  it('keeps what is sound', () => {
    const address = {
      group_by: 'supplier',
      platform: 'korvandel,morvelt',
      depot: '007',
      source: 'rebuilt,new',
      from: '2024-01-01',
      to: '2025-12-31',
      records: 'fitting',
      count: 'failed_and_preventive',
      fit: 'lognormal',
      of: 'Brantorly Exchange',
    };
    expect(parseLivesSearch(address)).toEqual(address);
  });

  it('drops what is not, and what is usual', () => {
    expect(
      parseLivesSearch({
        group_by: 'colour',
        platform: ' ,,',
        source: 'stolen',
        from: '2024-13-01',
        to: 'soon',
        records: 'first_reading',
        count: 'failed',
        fit: 'weibull',
        of: '',
        other: 'x',
      }),
    ).toEqual({});
    expect(parseLivesSearch({ group_by: 'toString', source: 'rebuilt,stolen,rebuilt' })).toEqual({
      source: 'rebuilt',
    });
  });

  it('has no period that ends before it begins', () => {
    expect(parseLivesSearch({ from: '2025-05-01', to: '2025-04-30' })).toEqual({ from: '2025-05-01' });
  });

  it('asks the server for the data, not for how they are shown', () => {
    expect(askOf({ group_by: 'depot', fit: 'lognormal', of: 'x', records: 'fitting' })).toEqual({
      group_by: 'depot',
      records: 'fitting',
    });
  });

  it('changes in part, and tells whether lives are left out', () => {
    const search = patchLivesSearch({ group_by: 'depot', depot: 'a' }, { depot: undefined });
    expect(search).toEqual({ group_by: 'depot' });
    expect([isNarrowed(search), isNarrowed({ to: '2025-01-01' })]).toEqual([false, true]);
  });
});
