import { createHash } from 'node:crypto';
import { gzipSync } from 'node:zlib';
import { expect, it } from 'vitest';
import { checkPart, type DrawsOrder, foreignPart } from '../src/rows/draws-order.ts';

it('a file of draws that comes back is taken whole, as its record says, and of its own order alone', () => {
  const file = Buffer.from('drawn,seed\nplain,1\n');
  const record = {
    ...{ format: 'tubgap draws part', version: 1, key: 'k', shard: 2, of: 3 },
    digest: createHash('sha256').update(file).digest('hex'),
  };
  const read = checkPart(record, gzipSync(file));
  if ('wrong' in read) throw new Error(read.wrong);
  const order = { shards: 3 } as DrawsOrder;
  expect(foreignPart(order, 'k', read.shard)).toBeUndefined();
  expect(foreignPart(order, 'other', read.shard)).toBe('belongs to other draws');
  expect(foreignPart({ shards: 4 } as DrawsOrder, 'k', read.shard)).toBe('belongs to other draws');
  const damaged = { wrong: 'is damaged: it does not match its digest' };
  expect(checkPart(record, gzipSync('drawn,seed\nplain,2\n'))).toEqual(damaged);
  expect(checkPart(record, gzipSync(file).subarray(0, 20))).toEqual(damaged);
  expect(checkPart(record, undefined)).toEqual(damaged);
  expect(checkPart({ ...record, more: 1 }, gzipSync(file))).toEqual({ wrong: 'is no file of draws' });
  expect(checkPart('{', undefined)).toEqual({ wrong: 'is no file of draws' });
});
