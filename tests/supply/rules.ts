/** Kept by hand: what may be in the tree of packages, and from which version on. */

export const LICENCES = [
  'MIT',
  'MIT OR Apache-2.0',
  'MIT OR SEE LICENSE IN FEEL-FREE.md',
  '(MIT AND Zlib)',
  'Apache-2.0',
  '(MPL-2.0 OR Apache-2.0)',
  'ISC',
  'BSD-3-Clause',
  '0BSD',
];
/** Share-alike for their own files: tools and tests may use them, what is handed out may not hold them. */
export const LICENCES_OF_TOOLS = ['MPL-2.0'];

interface Floor {
  /** Null: no version of it. */
  readonly atLeast: string | null;
  readonly because: string;
}
/** Published advisories, from memory of the lists at the time of writing; looked at again before a release. */
export const FLOORS: Readonly<Record<string, Floor>> = {
  jspdf: {
    atLeast: '4.2.1',
    because:
      'CVE-2020-7691, CVE-2021-23353, CVE-2025-29907, CVE-2025-57810, CVE-2026-25535, GHSA-f8cm-6447-x5h2, GHSA-pqxr-3g65-p328, GHSA-p5xg-68wr-hm3m, GHSA-9vjf-qc39-jprp, GHSA-7x6v-j9x4-qf24, GHSA-wfv2-pwc8-crg5, GHSA-95fx-jjr5-f39c, GHSA-vm32-vv63-w422, GHSA-cjw8-79x6-5cj4',
  },
  jszip: { atLeast: '3.8.0', because: 'CVE-2021-23413' },
  exceljs: { atLeast: null, because: 'GHSA-52f5-9888-hmc6, GHSA-ph9p-34f9-6g65, GHSA-w5hq-g745-h8pq in what it brings along' },
  xlsx: { atLeast: null, because: 'CVE-2023-30533, and the registry has no newer one' },
};

/** Addresses that may stand in what is built, with why: names of formats, or words in a library that no code of ours reaches. The content policy lets none of them be asked. */
export const ADDRESSES: readonly RegExp[] = [
  // Names of formats.
  /^http:\/\/www\.w3\.org\//,
  /^https?:\/\/json-schema\.org\//,
  /^http:\/\/schemas\.openxmlformats\.org\//,
  /^http:\/\/purl\.org\/dc\//,
  /^http:\/\/ns\.adobe\.com\//,
  // A pattern for addresses of the sixth kind in the schema library.
  /^http:\/\/\[\$/,
  // Where a library explains its messages, and the attribution that React Flow asks for: a link that someone may follow.
  /^https:\/\/react\.dev\/errors\//,
  /^https:\/\/(\$\{\w+\}|react)flow\.dev/,
  // jsPDF: in comments, and for an output that is never asked for.
  /^http:\/\/opensource\.org\/licenses\/mit-license/,
  /^http:\/\/(www\.phpied\.com|www\.myersdaily\.org|jspdf\.default\.namespaceuri)\//,
  /^http:\/\/www\.fpdf\.org\//,
  /^https:\/\/www\.cs\.cmu\.edu\//,
  /^https:\/\/webpjs\.appspot\.com/,
  /^http:\/\/www\.yworks\.com/,
  /^https:\/\/github\.com\//,
  /^https:\/\/cdnjs\.cloudflare\.com\/ajax\/libs\/pdfobject\//,
];
