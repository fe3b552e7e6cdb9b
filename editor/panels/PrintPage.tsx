import type { LineUp } from '../../engine/index.ts';
import { arrange } from '../store/deskStore.ts';

/** The one-line on a page of its own, fitted to it, above its title block. Seen on paper only. */
export default function PrintPage({ lineUp: { project }, address }: { readonly lineUp: LineUp; readonly address: string }) {
  const rows: readonly (readonly [string, string | undefined])[] = [
    ['Title', project.title],
    ['Site', project.site],
    ['Owner', project.owner],
    ['Drawing number', project.number],
    ['Revision', project.revision],
    ['Date of issue', project.date],
    ['Created by', project.createdBy],
    ['Checked by', project.checkedBy],
    ['Approved by', project.approvedBy],
    ['Status', project.status],
  ];
  return (
    <div className="paper">
      <img
        src={address}
        alt={`One-line diagram of ${project.title}`}
        onLoad={() => {
          window.addEventListener('afterprint', () => arrange({ printing: null }), { once: true });
          window.print();
          URL.revokeObjectURL(address);
        }}
      />
      <dl>
        {rows.map(([label, value]) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>{value ?? '–'}</dd>
          </div>
        ))}
      </dl>
    </div>
  );
}
