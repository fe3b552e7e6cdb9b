import { create } from 'zustand';

/** The chosen theme; 'system' follows the machine. */

export type Theme = 'system' | 'light' | 'dark';
const NEXT: Readonly<Record<Theme, Theme>> = { system: 'light', light: 'dark', dark: 'system' };
const KEY = 'copperline.theme';

const kept = (): Theme => {
  const theme = typeof localStorage === 'undefined' ? null : localStorage.getItem(KEY);
  return theme === 'light' || theme === 'dark' ? theme : 'system';
};

export const useTheme = create<{ readonly theme: Theme }>(() => ({ theme: kept() }));

export function cycleTheme(): void {
  const theme = NEXT[useTheme.getState().theme];
  localStorage.setItem(KEY, theme);
  useTheme.setState({ theme });
}

/** Puts the theme on the page from here on. */
export function startTheme(): void {
  const system = window.matchMedia('(prefers-color-scheme: dark)');
  const apply = () => {
    const { theme } = useTheme.getState();
    document.documentElement.dataset['theme'] = theme === 'system' ? (system.matches ? 'dark' : 'light') : theme;
  };
  apply();
  useTheme.subscribe(apply);
  system.addEventListener('change', apply);
}
