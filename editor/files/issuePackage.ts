import { arrange, desk } from '../store/deskStore.ts';
import { exportPackage } from './exportPackage.ts';

/** Writes the package, one at a time. */
export async function issuePackage(): Promise<void> {
  if (desk().issuing) return;
  arrange({ issuing: true });
  await exportPackage();
  arrange({ issuing: false });
}
