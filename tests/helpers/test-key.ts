/** The set-up key of every server that tests start. */
export const TEST_KEY = 'test-key-with-all-rights';

/** What a call brings along. */
export const withTestKey = { authorization: `Bearer ${TEST_KEY}` };
