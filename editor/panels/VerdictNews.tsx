import { useEffect, useRef, useState } from 'react';
import type { Review } from '../../engine/index.ts';
import { newsOf } from './news.ts';

/** What an edit did to the verdicts, told once and politely after the hand has come to rest. */

const REST_MS = 500;

export default function VerdictNews({ review, stale }: { readonly review: Review; readonly stale: boolean }) {
  const told = useRef(review);
  const [news, setNews] = useState('');
  useEffect(() => {
    if (stale) return;
    const timer = setTimeout(() => {
      setNews(newsOf(told.current, review));
      told.current = review;
    }, REST_MS);
    return () => clearTimeout(timer);
  }, [review, stale]);
  return (
    <p role="status" aria-label="What the edit changed" className="unseen">
      {news}
    </p>
  );
}
