import { useEffect, useState } from 'react';

export type Theme = 'system' | 'light' | 'dark';
export type ThemeSetting = readonly [Theme, (theme: Theme) => void];
export const nextTheme = (theme: Theme): Theme => (theme === 'system' ? 'light' : theme === 'light' ? 'dark' : 'system');

const KEY = 'copperline.theme';
const read = (): Theme => {
  const kept = localStorage.getItem(KEY);
  return kept === 'light' || kept === 'dark' ? kept : 'system';
};

/** The chosen theme; 'system' follows the machine. */
export function useTheme(): ThemeSetting {
  const [theme, setTheme] = useState(read);
  useEffect(() => {
    const system = window.matchMedia('(prefers-color-scheme: dark)');
    const apply = () => {
      document.documentElement.dataset['theme'] = theme === 'system' ? (system.matches ? 'dark' : 'light') : theme;
    };
    apply();
    localStorage.setItem(KEY, theme);
    system.addEventListener('change', apply);
    return () => system.removeEventListener('change', apply);
  }, [theme]);
  return [theme, setTheme];
}
