// Every document of every scenario in a real browser: nothing wider than the screen, no message, no request, no
// violation of the accessibility checker (axe-core), and paper with page numbers, the property on each page, and no
// table cut that fits on one.
//
//   node pages.mjs PADWALK SCENARIOS WORK [--keep-pictures] [SCENARIO...]
//
// With --keep-pictures nothing is checked: each page as a phone shows it goes to SCENARIOS/NAME/pictures, to be looked
// at. They are not compared, since every machine has its own type faces.
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { basename, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const require = createRequire(import.meta.url);
const axe = readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');
const [padwalk, scenarios, work, ...rest] = process.argv.slice(2);
const keepPictures = rest.includes('--keep-pictures');
const only = rest.filter((a) => !a.startsWith('--'));

const quiet = { stdio: ['ignore', 'pipe', 'pipe'] };
const fails = [];
let checked = 0;

function fail(where, what) {
  fails.push(`${where}: ${what}`);
  console.log(`FAIL ${where}: ${what}`);
}

// padwalk ends with 0 to 2 where it did its work.
function run(args) {
  try {
    execFileSync(padwalk, args, quiet);
  } catch (e) {
    if (!(e.status >= 0 && e.status <= 2)) throw new Error(`padwalk ${args.join(' ')}: ${e.status} ${e.stderr}`);
  }
}

function documentsOf(name) {
  const folder = join(work, name);
  const visit = join(scenarios, name, 'visit.yaml');
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  run(['documents', visit, '--out', folder]);
  for (const file of readdirSync(folder).filter((f) => f.startsWith('refer-'))) {
    const trade = file.slice('refer-'.length, -'.html'.length);
    run(['refer', visit, '--for', trade, '--language', 'es', '--html', join(folder, `es-${file}`)]);
  }
  run(['sheet', visit, '--html', join(folder, 'sheet.html')]);
  const later = join(scenarios, name, 'return.yaml');
  if (existsSync(later)) run(['compare', visit, later, '--html', join(folder, 'compare.html')]);
  if (existsSync(join(scenarios, name, 'expected.history.txt')))
    run(['history', join(scenarios, name), '--html', join(folder, 'history.html')]);
  return readdirSync(folder).filter((f) => f.endsWith('.html')).sort().map((f) => join(folder, f));
}

// What stands out of the window to the right, but for what is hidden from sight on purpose.
function tooWide() {
  const out = [];
  const wide = document.documentElement.clientWidth;
  if (document.documentElement.scrollWidth > wide) out.push(`the page is ${document.documentElement.scrollWidth} px wide`);
  for (const e of document.body.querySelectorAll('*')) {
    const box = e.getBoundingClientRect();
    if (box.width > 1 && box.right > wide + 0.5) {
      out.push(`<${e.tagName.toLowerCase()} class="${e.getAttribute('class') ?? ''}"> ends at ${box.right.toFixed(1)} of ${wide}`);
      if (out.length > 4) break;
    }
  }
  return out;
}

async function look(browser, file, where, width, scheme, withAxe) {
  const context = await browser.newContext({ viewport: { width, height: 900 }, colorScheme: scheme, bypassCSP: true });
  const page = await context.newPage();
  const address = pathToFileURL(file).href;
  page.on('console', (m) => fail(where, `console: ${m.text()}`));
  page.on('pageerror', (e) => fail(where, `error: ${e.message}`));
  page.on('request', (r) => {
    if (r.url() !== address && !r.url().startsWith('data:')) fail(where, `asks for ${r.url()}`);
  });
  await page.goto(address);
  for (const what of await page.evaluate(tooWide)) fail(`${where} at ${width} px`, what);
  if (withAxe) {
    await page.evaluate(axe);
    const found = await page.evaluate(() => window.axe.run(document, { resultTypes: ['violations'] }));
    for (const v of found.violations)
      fail(`${where} at ${width} px, ${scheme}`, `${v.id}: ${v.help}; ${v.nodes.length}, first ${v.nodes[0].html.slice(0, 160)}`);
  }
  return { context, page };
}

async function picture(browser, file, to) {
  const context = await browser.newContext({ viewport: { width: 390, height: 900 }, colorScheme: 'light' });
  const page = await context.newPage();
  await page.goto(pathToFileURL(file).href);
  const height = await page.evaluate(() => document.documentElement.scrollHeight);
  const session = await context.newCDPSession(page);
  const shot = await session.send('Page.captureScreenshot', {
    format: 'webp', quality: 15, captureBeyondViewport: true, clip: { x: 0, y: 0, width: 390, height, scale: 0.6 },
  });
  writeFileSync(to, Buffer.from(shot.data, 'base64'));
  await context.close();
}

const squeezed = (text) => text.replace(/[\s\u00a0\u00ad]+/g, '');

// On paper: by its own width, so that heights are those of the print.
async function onPaper(page, file, where, format) {
  await page.emulateMedia({ media: 'print', colorScheme: 'light' });
  const inch = 96, margin = (2 * 14 * inch) / 25.4;
  const [wide, high] = format === 'Letter' ? [8.5, 11] : [8.27, 11.69];
  const room = high * inch - (2 * 14 * inch) / 25.4;
  await page.setViewportSize({ width: Math.floor(wide * inch - margin), height: 900 });
  const tables = await page.evaluate((room) => [...document.querySelectorAll('table')]
    .filter((t) => t.getBoundingClientRect().height < 0.8 * room)
    .map((t) => [t.caption.textContent, t.rows[t.rows.length - 1].textContent]), room);
  const heading = await page.evaluate(() => document.querySelector('h1').textContent);
  const sections = await page.evaluate(() => [...document.querySelectorAll('h2')].map((h) => h.textContent));
  const pdf = `${file}.${format}.pdf`;
  writeFileSync(pdf, await page.pdf({ format, preferCSSPageSize: false, printBackground: false }));
  const info = execFileSync('pdfinfo', [pdf], quiet).toString();
  const count = Number(/Pages:\s+(\d+)/.exec(info)[1]);
  const pages = execFileSync('pdftotext', ['-layout', pdf, '-'], quiet).toString().split('\f').slice(0, count);
  const texts = pages.map(squeezed);
  texts.forEach((text, i) => {
    if (!text.includes(`${i + 1}/${count}`)) fail(`${where} on ${format}`, `page ${i + 1} of ${count} has no number`);
    for (const part of heading.split(': '))
      if (!text.includes(squeezed(part))) fail(`${where} on ${format}`, `page ${i + 1} does not name '${part}'`);
  });
  const all = texts.join('');
  for (const s of sections) if (!all.includes(squeezed(s.replace('⚠', '')))) fail(`${where} on ${format}`, `'${s}' is not on paper`);
  for (const [first, last] of tables) {
    // Long cells come out of the print in columns; the beginning of the last row is enough.
    const end = squeezed(last).slice(0, 12);
    if (!texts.some((t) => t.includes(squeezed(first).slice(0, 30)) && t.includes(end)))
      fail(`${where} on ${format}`, `the table '${first}' is cut`);
  }
  return count;
}

const browser = await chromium.launch({
  executablePath: process.env.PADWALK_CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
});
for (const name of readdirSync(scenarios).sort()) {
  if (!existsSync(join(scenarios, name, 'visit.yaml')) || (only.length > 0 && !only.includes(name))) continue;
  const files = documentsOf(name);
  const counts = [];
  if (keepPictures) {
    const folder = join(scenarios, name, 'pictures');
    rmSync(folder, { recursive: true, force: true });
    mkdirSync(folder);
    for (const file of files.filter((f) => !/(record|sheet)\.html$|\/es-/.test(f))) {
      await picture(browser, file, join(folder, basename(file).replace('.html', '.webp')));
      checked += 1;
    }
    continue;
  }
  for (const file of files) {
    const where = file.slice(work.length + 1);
    const phone = await look(browser, file, where, 390, 'light', true);
    counts.push(await onPaper(phone.page, file, where, 'Letter'));
    await phone.context.close();
    const tablet = await look(browser, file, where, 820, 'dark', true);
    await onPaper(tablet.page, file, where, 'A4');
    await tablet.context.close();
    await (await look(browser, file, where, 320, 'light', false)).context.close();
    checked += 1;
  }
  console.log(`${name}: ${files.length} documents, ${counts.join(' + ')} pages`);
}
await browser.close();
console.log(`${checked} documents, ${fails.length} failures`);
process.exit(fails.length > 0 || checked === 0 ? 1 : 0);
