import { useEffect, useRef, useState } from 'react';
import styles from './page-drop.module.css';

const bearsFiles = (event: DragEvent) => event.dataTransfer?.types.includes('Files') ?? false;

/** The whole page takes a file that is let go over it; while one hovers, it says so. */
export function PageDrop({ words, onFile }: { readonly words: string; onFile(file: File): void }) {
  const [hovering, setHovering] = useState(false);
  const take = useRef(onFile);
  take.current = onFile;
  useEffect(() => {
    // Entering a child comes before leaving its parent, so the two are counted against each other.
    let within = 0;
    const enter = (event: DragEvent) => {
      if (!bearsFiles(event)) return;
      within += 1;
      setHovering(true);
    };
    const leave = (event: DragEvent) => {
      if (!bearsFiles(event)) return;
      within = Math.max(0, within - 1);
      if (within === 0) setHovering(false);
    };
    const over = (event: DragEvent) => {
      if (bearsFiles(event)) event.preventDefault();
    };
    const drop = (event: DragEvent) => {
      within = 0;
      setHovering(false);
      // A field of the page that took the file itself has said so.
      if (!bearsFiles(event) || event.defaultPrevented) return;
      event.preventDefault();
      const file = event.dataTransfer?.files[0];
      if (file) take.current(file);
    };
    document.addEventListener('dragenter', enter);
    document.addEventListener('dragleave', leave);
    document.addEventListener('dragover', over);
    document.addEventListener('drop', drop);
    return () => {
      document.removeEventListener('dragenter', enter);
      document.removeEventListener('dragleave', leave);
      document.removeEventListener('dragover', over);
      document.removeEventListener('drop', drop);
    };
  }, []);
  if (!hovering) return null;
  return (
    <div className={styles.over} aria-hidden="true">
      <p>{words}</p>
    </div>
  );
}
