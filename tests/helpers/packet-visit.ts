import { expect } from 'vitest';
import { type Packet, packet } from '#server/contract/packets.ts';
import { type Closed, closed } from '#server/contract/repair.ts';
import { type Recorded, recorded } from '#server/contract/test-steps.ts';
import type { TestApp } from './start-app.ts';
import { withTestKey } from './test-key.ts';

/** What tests ask of packets, as whoever has these headers. */
export function visitAs(app: TestApp, headers: Record<string, string> = withTestKey) {
  const ask = (method: string, path: string, body?: unknown) =>
    fetch(`${app.url}/api${path}`, {
      method,
      headers: { 'content-type': 'application/json', ...headers },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
  const answered = async (answer: Promise<Response>): Promise<unknown> => {
    const got = await answer;
    const said = await got.json();
    expect(got.status, JSON.stringify(said)).toBe(200);
    return said;
  };
  return {
    ask,
    open: async (vehicle: string): Promise<Packet> =>
      packet.parse(await answered(ask('POST', '/packets', { vehicle }))),
    get: async (id: number): Promise<Packet> => packet.parse(await answered(ask('GET', `/packets/${id}`))),
    record: async (id: number, input: Record<string, unknown>): Promise<Recorded> =>
      recorded.parse(await answered(ask('POST', `/packets/${id}/findings`, input))),
    report: async (id: number, report: Record<string, unknown>): Promise<Packet> => {
      const { version } = packet.parse(await answered(ask('GET', `/packets/${id}`)));
      return packet.parse(await answered(ask('PUT', `/packets/${id}/report`, { version, ...report })));
    },
    close: async (id: number, request: Record<string, unknown>): Promise<Closed> => {
      const { version } = packet.parse(await answered(ask('GET', `/packets/${id}`)));
      return closed.parse(await answered(ask('POST', `/packets/${id}/close`, { version, ...request })));
    },
    /** A refusal: its status, and the sentences under the fields. */
    refused: async (method: string, path: string, body?: unknown) => {
      const answer = await ask(method, path, body);
      const said = await answer.json();
      return {
        status: answer.status,
        detail: String(said.detail),
        errors: said.errors as { field: string; message: string }[],
      };
    },
  };
}
