/** The canonical text against RFC 8785's own examples, and the fast path against the library. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { TAG_NAMES } from '../../machines/field/tags.ts';
import { canonical, canonicalReadings } from '../../machines/record/canonical.ts';
import type { ReadingsBody } from '../../machines/record/entry.ts';
import { sha256 } from '../../server/digest.ts';

/** IEEE 754 bits → what must be written; RFC 8785, Appendix B. */
const NUMBERS: readonly (readonly [bits: string, text: string])[] = [
  ['0000000000000000', '0'],
  ['8000000000000000', '0'],
  ['0000000000000001', '5e-324'],
  ['8000000000000001', '-5e-324'],
  ['7fefffffffffffff', '1.7976931348623157e+308'],
  ['ffefffffffffffff', '-1.7976931348623157e+308'],
  ['4340000000000000', '9007199254740992'],
  ['c340000000000000', '-9007199254740992'],
  ['4430000000000000', '295147905179352830000'],
  ['44b52d02c7e14af5', '9.999999999999997e+22'],
  ['44b52d02c7e14af6', '1e+23'],
  ['44b52d02c7e14af7', '1.0000000000000001e+23'],
  ['444b1ae4d6e2ef4e', '999999999999999700000'],
  ['444b1ae4d6e2ef4f', '999999999999999900000'],
  ['444b1ae4d6e2ef50', '1e+21'],
  ['3eb0c6f7a0b5ed8c', '9.999999999999997e-7'],
  ['3eb0c6f7a0b5ed8d', '0.000001'],
  ['41b3de4355555553', '333333333.3333332'],
  ['41b3de4355555554', '333333333.33333325'],
  ['41b3de4355555555', '333333333.3333333'],
  ['41b3de4355555556', '333333333.3333334'],
  ['41b3de4355555557', '333333333.33333343'],
  ['becbf647612f3696', '-0.0000033333333333333333'],
  ['43143ff3c1cb0959', '1424953923781206.2'],
];

const fromBits = (hex: string): number => {
  const view = new DataView(new ArrayBuffer(8));
  view.setBigUint64(0, BigInt(`0x${hex}`));
  return view.getFloat64(0);
};

describe('canonical form (RFC 8785)', () => {
  it.each(NUMBERS)('number with bits %s is written %s', (bits, text) => {
    expect(canonical(fromBits(bits))).toBe(text);
  });

  it.each(['7fffffffffffffff', '7ff0000000000000', 'fff0000000000000'])(
    'number with bits %s has no form',
    (bits) => {
      expect(() => canonical(fromBits(bits))).toThrow();
    },
  );

  it('writes the example of section 3.2.2 as section 3.2.3 shows it', () => {
    const given = JSON.parse(String.raw`{
      "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
      "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
      "literals": [null, true, false]
    }`);
    expect(canonical(given)).toBe(
      String.raw`{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}`,
    );
  });

  it('sorts keys by their UTF-16 units (section 3.2.3)', () => {
    const given = JSON.parse(String.raw`{
      "\u20ac": "Euro Sign", "\r": "Carriage Return", "\ufb33": "Hebrew Letter Dalet With Dagesh",
      "1": "One", "\ud83d\ude00": "Emoji: Grinning Face", "\u0080": "Control",
      "\u00f6": "Latin Small Letter O With Diaeresis"
    }`) as { [key: string]: string };
    const values = Object.values(JSON.parse(canonical(Object.entries(given).map(([, v]) => v))));
    expect(values).toHaveLength(7);
    const written = [...canonical(given).matchAll(/:"([^"]+)"/g)].map((match) => match[1]);
    expect(written).toEqual([
      'Carriage Return',
      'One',
      'Control',
      'Latin Small Letter O With Diaeresis',
      'Euro Sign',
      'Emoji: Grinning Face',
      'Hebrew Letter Dalet With Dagesh',
    ]);
  });

  it('refuses a lone surrogate and a bare undefined', () => {
    expect(() => canonical('\ud800')).toThrow();
    expect(() => canonical(undefined)).toThrow();
  });

  it('has the same text for readings whichever way it is made', () => {
    const changes = fc.dictionary(
      fc.constantFrom(...TAG_NAMES),
      fc.double({ noNaN: true, noDefaultInfinity: true }),
      {
        maxKeys: 12,
      },
    );
    const body = fc.record({
      from: fc.nat(),
      to: fc.nat(),
      rows: fc.array(fc.tuple(fc.nat(), changes), { maxLength: 10 }),
    });
    fc.assert(
      fc.property(body, (given) => {
        const readings = given as unknown as ReadingsBody;
        expect(canonicalReadings(readings)).toBe(canonical(readings));
      }),
      { numRuns: 300 },
    );
  });

  it('refuses readings that are no numbers', () => {
    expect(() => canonicalReadings({ from: 1, to: 1, rows: [[1, { mixC: Number.NaN }]] })).toThrow(/mixC/);
  });
});

it('digest is SHA-256 (FIPS 180-4, example "abc")', () => {
  expect(sha256('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
});
