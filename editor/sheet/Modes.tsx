/** What the arrows do to the part under the focus: read with its name, and shown while the focus is seen. */

export const TRAVEL_ID = 'keys-travel';
export const CHOSEN_ID = 'keys-chosen';

export const Modes = () => (
  <div className="modes">
    <p id={TRAVEL_ID}>Arrows go along the cables. Enter chooses.</p>
    <p id={CHOSEN_ID}>Arrows move it. Escape goes back to travelling.</p>
  </div>
);
