import { expect, it, vi } from 'vitest';
import type { Preview, PreviewRequest } from '#server/contract/settings.ts';
import { programActor } from '#server/services/actor.ts';
import { createPreviewDesk, type MakePreview } from './preview-desk.ts';

const counts = { hold: 0, book: 0, watch: 0, steady: 1, unknown: 0 };
const made: Preview = { vehicles: 1, before: counts, after: counts, moved: [], regraded: 0, reranked: 0 };
const request: PreviewRequest = { platform: { id: 'p', limit_rpm: 100 } };
const [ann, ben] = [programActor('ann'), programActor('ben')];
const open = () => new AbortController().signal;

/** Work that ends when the test says so. */
function heldWork() {
  let finish = () => {};
  const promise = new Promise<Preview | null>((settle) => {
    finish = () => settle(made);
  });
  const make = vi.fn<MakePreview>((_request, { progress }) => {
    progress(10, 40);
    return promise;
  });
  return { make, finish };
}

it('answers at once what is made in time', async () => {
  const desk = createPreviewDesk(async () => made);
  expect(await desk.ask(ann, request, open())).toEqual({ done: 0, of: 0, preview: made });
});

it('says how far it is, and goes on with the same work when asked again', async () => {
  const { make, finish } = heldWork();
  const desk = createPreviewDesk(make, { waitMs: 5 });
  expect(await desk.ask(ann, request, open())).toEqual({ done: 10, of: 40, preview: null });
  expect(await desk.ask(ann, request, open())).toMatchObject({ preview: null });
  finish();
  expect(await desk.ask(ann, request, open())).toMatchObject({ preview: made });
  expect(make).toHaveBeenCalledTimes(1);
  await desk.ask(ann, request, open());
  expect(make).toHaveBeenCalledTimes(2);
});

it('keeps apart who asks and what is asked', async () => {
  const { make } = heldWork();
  const desk = createPreviewDesk(make, { waitMs: 1 });
  await desk.ask(ann, request, open());
  await desk.ask(ben, request, open());
  await desk.ask(ann, { platform: { id: 'p', limit_rpm: 110 } }, open());
  expect(make).toHaveBeenCalledTimes(3);
  desk.stop();
});

it('ends work for which nobody waits any more', async () => {
  const { make } = heldWork();
  const desk = createPreviewDesk(make, { waitMs: 1, abandonedMs: 10 });
  await desk.ask(ann, request, open());
  const signal = make.mock.calls[0]?.[1].signal;
  await vi.waitFor(() => expect(signal?.aborted).toBe(true));
  const leaving = new AbortController();
  const asked = desk.ask(ann, request, leaving.signal);
  leaving.abort();
  await asked;
  expect(make.mock.calls[1]?.[1].signal.aborted).toBe(true);
});

it('takes no more work than it can hold', async () => {
  const { make } = heldWork();
  const desk = createPreviewDesk(make, { waitMs: 1 });
  for (let limit = 101; limit <= 116; limit++)
    await desk.ask(ann, { platform: { id: 'p', limit_rpm: limit } }, open());
  await expect(desk.ask(ann, request, open())).rejects.toMatchObject({ code: 'busy' });
  desk.stop();
  expect(await desk.ask(ann, request, open())).toMatchObject({ preview: null });
});

it('passes on why there is none, and tries anew when asked again', async () => {
  const make = vi.fn<MakePreview>().mockRejectedValue(new Error('no storage'));
  const desk = createPreviewDesk(make);
  await expect(desk.ask(ann, request, open())).rejects.toThrow('no storage');
  await expect(desk.ask(ann, request, open())).rejects.toThrow('no storage');
  expect(make).toHaveBeenCalledTimes(2);
});
