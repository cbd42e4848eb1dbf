import { expect, it } from 'vitest';
import { makeSignatureBase, signBase } from './sign-post.ts';

it('signs as RFC 9421 does in its appendix B.2.5, with the shared secret of B.1.5', () => {
  const secret = Buffer.from(
    'uzvJfB4u3N0Jy4T7NZ75MDVcr8zSTInedJtkgcu46YW4XByzNJjxBdtjUkdJPBtbmHhIDi6pcl8jsasjlTMtDQ==',
    'base64',
  );
  const parts = [
    { name: 'date', value: 'Tue, 20 Apr 2021 02:07:55 GMT' },
    { name: '@authority', value: 'example.com' },
    { name: 'content-type', value: 'application/json' },
  ];
  const parameters = '("date" "@authority" "content-type");created=1618884473;keyid="test-shared-secret"';
  expect(signBase(makeSignatureBase(parts, parameters), secret)).toBe(
    'pxcQw6G3AjtMBQjwo8XzkZf/bws5LelbaMk5rGIGtE8=',
  );
});
