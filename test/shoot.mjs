process.env.AWS_LAMBDA_JS_RUNTIME='nodejs20.x';
const { default: chromium } = await import('@sparticuz/chromium');
const { chromium: pw } = await import('playwright-core');
import { readFileSync } from 'node:fs';
const b = await pw.launch({ executablePath: await chromium.executablePath(), args: ['--no-sandbox'] });
const p = await b.newPage({ deviceScaleFactor: 2 });
for (const f of process.argv.slice(2)) {
  const svg = readFileSync(f,'utf8');
  const [,w,h] = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg).map(Number);
  await p.setViewportSize({ width: Math.ceil(w*1.5), height: Math.ceil(h*1.5) });
  await p.setContent(`<body style="margin:0">${svg.replace('<svg ',`<svg width="${w*1.5}" `)}</body>`);
  await p.screenshot({ path: f.replace(/\.svg$/,'.png') });
}
await b.close();
