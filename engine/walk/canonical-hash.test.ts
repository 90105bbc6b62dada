import canonicalize from 'canonicalize';
import { expect, it } from 'vitest';
import { canonicalHash } from './canonical-hash.ts';

// RFC 8785, section 3.2.2-3.2.4: the sample object and its canonical form, as printed there.
it('canonical JSON is as the sample of RFC 8785', () => {
  const sample: unknown = JSON.parse(
    String.raw`{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],"string":"\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/","literals":[null,true,false]}`,
  );
  expect(canonicalize(sample)).toBe(
    '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}',
  );
});

// FIPS 180-2, appendix B.1: SHA-256 of "abc"; here of the canonical JSON `"abc"` is another value, so the empty object is taken from sha256sum(1): printf '{}' | sha256sum.
it('is SHA-256 in hex', () => {
  expect(canonicalHash({})).toBe('44136fa355b3678a1146ad16f7e8649e94fb4fc21fe77e8310c060f61caaff8a');
});

it('does not depend on the order of keys', () => {
  expect(canonicalHash({ a: 1, b: 2 })).toBe(canonicalHash({ b: 2, a: 1 }));
});
