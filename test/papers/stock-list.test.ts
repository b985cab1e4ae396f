import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Result } from '@tubgap/results';
import { expect, inject, it } from 'vitest';
import { tubgap } from '../end-to-end/command.ts';
import { changedResult } from './paper-folder.ts';

const demo = inject('demo');
const here = mkdtempSync(join(tmpdir(), 'tubgap-stock-'));

/** What is told of the demo when the shop's list says so of its tubs, and the table of its picks. */
function told(change: (result: Result) => void): { out: string; picks: string[]; json: string } {
  const folder = changedResult(demo, change);
  const { out, code } = tubgap(here, 'report', folder);
  expect(code).toBe(0);
  const picks = readFileSync(join(folder, 'pick.csv'), 'utf8').split('\n');
  return { out: out.replace(/\s+/g, ' '), picks, json: tubgap(here, 'report', folder, '--json').out };
}

it('the shop’s own columns come through to the answer, the table and the JSON', () => {
  const { out, picks, json } = told(({ tubs, chosen }) => {
    tubs[chosen!]!.listed = { stock: '2', supplier: 'by the rail yard' };
    tubs[chosen!]!.inStock = true;
  });
  expect(out).toContain('Stock list stock 2, supplier by the rail yard');
  expect(out).not.toMatch(/ORDER|not in stock/);
  expect(picks[0]).toMatch(/,reason,.*,list_stock,list_supplier$/);
  expect(picks.filter((line) => line.endsWith(',2,by the rail yard'))).toHaveLength(1);
  expect(JSON.parse(json).picks[1].listed).toEqual({ stock: '2', supplier: 'by the rail yard' });
});

it('what the shop’s list says of a tyre is told beside the tub’s', () => {
  const { out } = told(({ tubs, chosen, tyres }) => {
    tubs[chosen!]!.listed = { stock: '2' };
    tyres[0]!.listed = { stock: '4', price: '310' };
  });
  expect(out).toMatch(/Stock list stock 2 [a-z-]+: stock 4, price 310 /);
});

it('a tub to build that is not there is told as an order', () => {
  const { out } = told(({ tubs, chosen }) => {
    tubs[chosen!]!.inStock = false;
  });
  expect(out).toContain('ORDER street-42 is not in stock, and no tub in stock does');
});

it('a tub in stock is built before a smaller one that is not, which is named', () => {
  const { out } = told((result) => {
    result.tubs[1]!.inStock = false;
    result.chosen = 2;
    result.passedOver = [];
  });
  expect(out).toContain('To order street-42 would take less room, but is not in stock');
  expect(out).toMatch(/fits, not in stock/);
  expect(out).toMatch(/smallest in stock that/);
});
