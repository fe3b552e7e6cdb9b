import { memo } from 'react';

/** A tag with its number, or a figure with its unit. */
const WHOLE = /([^\s-]+-\d[^\s-]*|\d (?:%|°C|hp|ft|in|AWG|kcmil|[kMmµn]?(?:A|V|W|VA|Hz|Ω|s|m|F|H))(?![\w²]))/;

/** A sentence that is broken into lines only where a reader would break it. */
export const Unbroken = memo(function Unbroken({ text }: { readonly text: string }) {
  // Every second piece is one that the pattern took, and its place in the sentence is its identity.
  return text.split(WHOLE).map((piece, i) =>
    i % 2 === 0 ? (
      piece
    ) : (
      <span key={`${i}${piece}`} className="whole">
        {piece}
      </span>
    ),
  );
});
