import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { load, review } from '../../engine/index.ts';
import { write } from '../../engine/submittal/formats.ts';
import { expect, test } from './page.ts';

const plain = (text: string): string => text.normalize('NFKC').replaceAll(/\s+/g, '');

test('the package holds every finding and every tag', async ({ page }) => {
  await page.getByText('Heron Weir pumps').click();
  const waiting = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Issue package' }).click();
  const file = await (await waiting).path();
  const bytes = readFileSync(file);
  const pdf = await getDocument({ data: new Uint8Array(bytes) }).promise;
  let text = '';
  for (let i = 1; i <= pdf.numPages; i++)
    text += (await (await pdf.getPage(i)).getTextContent()).items.map((item) => ('str' in item ? item.str : '')).join(' ');
  const loaded = load(readFileSync(join(import.meta.dirname, '../../examples/heron-weir-pumps.json'), 'utf8'));
  if (!loaded.ok) throw new Error(loaded.what);
  const written = plain(text);
  for (const each of review(loaded.lineUp).findings)
    if (!['not-applicable', 'pass'].includes(each.verdict)) expect(written).toContain(plain(each.text));
  for (const part of loaded.lineUp.elements) expect(written).toContain(plain(part.tag));
  const font = (name: string) => readFileSync(join(import.meta.dirname, `../../public/fonts/${name}.woff`));
  const fonts = async () => ({ regular: font('sans-400'), semibold: font('sans-600') });
  const [own] = await write('pdf', { lineUp: loaded.lineUp, review: review(loaded.lineUp), date: '2026-11-25', fonts });
  expect(bytes.equals(Buffer.from(own?.bytes ?? [])), 'the same bytes as the command line writes').toBe(true);
});

test('a file that cannot be read is refused with place and reason; the open line-up stays', async ({ page }) => {
  await page.getByText('Heron Weir pumps').click();
  const dropped = await page.evaluateHandle(() => {
    const data = new DataTransfer();
    data.items.add(new File(['{"format":"copperline",'], 'broken.json'));
    return data;
  });
  await page.dispatchEvent('main', 'drop', { dataTransfer: dropped });
  await expect(page.getByRole('dialog')).toContainText('broken.json');
  await expect(page.getByRole('dialog')).toContainText('untouched');
  await page.getByRole('button', { name: 'Close', exact: true }).click();
  await expect(page.getByText('Heron Weir pumps is not ready to issue')).toBeVisible();
});

test('sheets are chosen, and each form is handed over by itself', async ({ page }) => {
  await page.getByText('Heron Weir pumps').click();
  await page.getByRole('button', { name: 'Export…' }).click();
  const dialog = page.getByRole('dialog', { name: 'Sheets and forms' });
  await expect(dialog.getByLabel('Field sheets')).not.toBeChecked();
  const handed = async (form: string) => {
    const waiting = page.waitForEvent('download');
    await dialog.getByRole('button', { name: form, exact: true }).click();
    const download = await waiting;
    return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
  };
  const endings = { XLSX: '.xlsx', CSV: '.csv.zip', SVG: '.svg', DXF: '.dxf', JSON: '.issued.json', HTML: '.html', PNG: '.png' };
  for (const [form, ending] of Object.entries(endings)) {
    const { name, bytes } = await handed(form);
    expect(name).toBe(`HW-E-201_A${ending}`);
    expect(bytes.length).toBeGreaterThan(1000);
    await expect(dialog.getByRole('status')).toHaveText(`${form} is handed to the browser.`);
    if (form === 'PNG') expect(bytes.subarray(1, 4).toString()).toBe('PNG');
  }
  for (const box of await dialog.getByRole('checkbox').all()) await box.uncheck();
  await expect(dialog.getByRole('button', { name: 'PDF', exact: true })).toBeDisabled();
  await dialog.getByLabel('Field sheets').check();
  const { bytes } = await handed('PDF');
  expect((await getDocument({ data: new Uint8Array(bytes) }).promise).numPages).toBe(3);
  const earlier = dialog.getByLabel('Compare with an earlier issue');
  await earlier.setInputFiles({ name: 'torn.json', mimeType: 'application/json', buffer: Buffer.from('{') });
  await expect(dialog.getByRole('status')).toContainText('torn.json');
  await earlier.setInputFiles(join(import.meta.dirname, '../../examples/heron-weir-pumps.json'));
  await expect(dialog.getByLabel('Revision history')).toBeChecked();
  await expect(dialog.getByRole('status')).toBeEmpty();
});

test('the set can be looked at before it is handed over, and its writing ended', async ({ page }) => {
  await page.getByText('Heron Weir pumps').click();
  await page.getByRole('button', { name: 'Export…' }).click();
  const look = page.getByRole('button', { name: 'Look at it first' });
  const preview = page.getByRole('dialog', { name: 'The set of sheets' });
  // Fonts that do not arrive: it is written for ever.
  let asked = 0;
  await page.route('**/fonts/*.woff', () => void asked++);
  await look.click();
  await expect(preview.getByRole('progressbar', { name: 'Sheets written' })).toBeVisible();
  await expect.poll(() => asked).toBeGreaterThan(0);
  await preview.getByRole('button', { name: 'Cancel' }).click();
  await expect(preview).toBeHidden();
  await expect(page.getByRole('dialog', { name: 'Sheets and forms' })).toBeVisible();
  await page.unroute('**/fonts/*.woff');

  // A browser without a reader of its own says so, and hands the same set over.
  await page.evaluate(() => Object.defineProperty(navigator, 'pdfViewerEnabled', { configurable: true, value: false }));
  await look.click();
  await expect(preview.getByText('This browser shows no PDF files in a page.')).toBeVisible();
  const waiting = page.waitForEvent('download');
  await preview.getByRole('button', { name: 'Hand it over' }).click();
  const download = await waiting;
  expect(download.suggestedFilename()).toBe('HW-E-201_A.pdf');
  const handed = readFileSync(await download.path());
  await preview.getByRole('button', { name: 'Close' }).click();

  await page.evaluate(() => Object.defineProperty(navigator, 'pdfViewerEnabled', { configurable: true, value: true }));
  // The policy lets no script read what an address holds: it is looked at while it is given one.
  const made = await page.evaluateHandle(() => {
    const blobs = new Map<string, Blob>();
    const give = URL.createObjectURL;
    URL.createObjectURL = (blob: Blob) => {
      const address = give(blob);
      blobs.set(address, blob);
      return address;
    };
    return blobs;
  });
  await look.click();
  const address = await preview.locator('iframe').getAttribute('src');
  const shown = await made.evaluate((blobs, at) => ({ type: blobs.get(at)?.type, size: blobs.get(at)?.size }), address ?? '');
  expect(shown).toEqual({ type: 'application/pdf', size: handed.length });
});
