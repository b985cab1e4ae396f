import type { Result } from '@tubgap/results';
import { dummyOf } from './dummy.ts';
import { templateDxf } from './dxf.ts';
import { templatePdf } from './pdf.ts';
import { A4, LETTER } from './tiles.ts';

const LONGEST = 40;

/** A tyre's name as part of a file's: small letters, digits and hyphens, whatever the name holds. */
const plainName = (name: string): string =>
  name
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, LONGEST)
    .replace(/^-|-$/g, '');

/** Names of the template's files for every tyre, all different. */
function templateNames(tyres: readonly { name: string }[]): string[] {
  const names: string[] = [];
  for (const { name } of tyres) {
    const plain = `template-${plainName(name) || 'tyre'}`;
    let own = plain;
    for (let n = 2; names.includes(own); n++) own = `${plain}-${n}`;
    names.push(own);
  }
  return names;
}

/** A template's file: what it is called, what it is for, and how it is made. */
interface TemplateFile {
  file: string;
  about: string;
  make: () => string | Promise<Uint8Array>;
}

/** Templates of every tyre that the car runs, the one that decides first; none without a tub to build. */
export function templateFiles(result: Result): TemplateFile[] {
  const names = templateNames(result.tyres);
  const found = result.tyres.flatMap((_, i) => {
    const dummy = dummyOf(result, i);
    return dummy === undefined ? [] : [{ dummy, name: names[i]! }];
  });
  return found
    .sort((a, b) => Number(b.dummy.decides) - Number(a.dummy.decides))
    .flatMap(({ dummy, name }): TemplateFile[] => [
      {
        file: `${name}.dxf`,
        about: `${dummy.tyre} at its largest at full size, in ${result.case.units === 'mm' ? 'millimetres' : 'inches'}, to cut a dummy from board${dummy.decides ? '; the tyre that decides' : ''}`,
        make: () => templateDxf(result, dummy),
      },
      {
        file: `${name}-a4.pdf`,
        about: 'the same over pages of A4',
        make: () => templatePdf(result, dummy, A4),
      },
      {
        file: `${name}-letter.pdf`,
        about: 'the same over pages of Letter',
        make: () => templatePdf(result, dummy, LETTER),
      },
    ]);
}
