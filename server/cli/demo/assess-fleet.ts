import { CommandError } from '#server/cli/command-error.ts';
import { assessReply } from '#server/contract/ranking.ts';

/** Asks the server to assess, through the public interface, and says how it went. */
export async function assessFleet(url: string, apiKey: string, signal: AbortSignal): Promise<string> {
  const response = await fetch(`${url}/api/assess`, {
    method: 'POST',
    signal,
    headers: { Authorization: `Bearer ${apiKey}` },
  });
  if (!response.ok) throw new CommandError(`The fleet could not be assessed: ${await response.text()}`);
  const reply = assessReply.parse(await response.json());
  return `Assessed the fleet in ${reply.seconds.toFixed(1)} s.`;
}
