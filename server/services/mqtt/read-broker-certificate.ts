import { X509Certificate } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import type { MqttSettings } from '#server/mqtt-settings.ts';
import { SettingsError } from '#server/settings.ts';

/** The certificate that is trusted instead of the usual ones; null where none is named. */
export async function readBrokerCertificate(settings: MqttSettings | null): Promise<string | null> {
  const file = settings?.server.caFile ?? null;
  if (file === null) return null;
  try {
    const text = await readFile(file, 'utf8');
    new X509Certificate(text);
    return text;
  } catch {
    throw new SettingsError(`SLIPDRIFT_MQTT_URL names ${file}, which is no certificate that can be read.`);
  }
}
