import { generateKeyPairSync, sign } from 'node:crypto';

/** DER, ITU-T X.690: tag, length, content. */
const der = (tag: number, ...content: Buffer[]): Buffer => {
  const body = Buffer.concat(content);
  const { length } = body;
  const size = length < 128 ? [length] : length < 256 ? [0x81, length] : [0x82, length >> 8, length & 255];
  return Buffer.concat([Buffer.from([tag, ...size]), body]);
};
const sequence = (...content: Buffer[]) => der(0x30, ...content);
const set = (...content: Buffer[]) => der(0x31, ...content);
const oid = (hex: string) => der(0x06, Buffer.from(hex, 'hex'));
const utcTime = (at: Date) => der(0x17, Buffer.from(`${at.toISOString().replace(/\D/g, '').slice(2, 14)}Z`));

/** ecdsa-with-SHA256, commonName, subjectAltName, basicConstraints */
const oids = { ecdsa: '2a8648ce3d040302', name: '550403', altName: '551d11', constraints: '551d13' };

/** A certificate that signs itself, for localhost and 127.0.0.1, good for a day: RFC 5280 section 4.1. */
export function makeCertificate(): { key: string; cert: string } {
  const { privateKey, publicKey } = generateKeyPairSync('ec', { namedCurve: 'P-256' });
  const algorithm = sequence(oid(oids.ecdsa));
  const name = sequence(set(sequence(oid(oids.name), der(0x0c, Buffer.from('localhost')))));
  const altNames = sequence(der(0x82, Buffer.from('localhost')), der(0x87, Buffer.from([127, 0, 0, 1])));
  const isAuthority = sequence(der(0x01, Buffer.from([0xff])));
  const content = sequence(
    der(0xa0, der(0x02, Buffer.from([2]))),
    der(0x02, Buffer.from([1])),
    algorithm,
    name,
    sequence(utcTime(new Date(Date.now() - 3_600_000)), utcTime(new Date(Date.now() + 86_400_000))),
    name,
    publicKey.export({ type: 'spki', format: 'der' }),
    der(
      0xa3,
      sequence(
        sequence(oid(oids.altName), der(0x04, altNames)),
        sequence(oid(oids.constraints), der(0x04, isAuthority)),
      ),
    ),
  );
  const signature = sign('sha256', content, privateKey);
  const whole = sequence(content, algorithm, der(0x03, Buffer.from([0]), signature));
  const lines = whole.toString('base64').match(/.{1,64}/g) ?? [];
  return {
    key: privateKey.export({ type: 'pkcs8', format: 'pem' }).toString(),
    cert: `-----BEGIN CERTIFICATE-----\n${lines.join('\n')}\n-----END CERTIFICATE-----\n`,
  };
}
