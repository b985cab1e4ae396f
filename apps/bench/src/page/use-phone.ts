import { useEffect, useState } from 'preact/hooks';

/** A screen that a thumb works: narrow, or low. The same words stand in phone.css. */
const PHONE = '(max-width: 600px), (max-height: 480px)';

/** Whether the page stands on a phone; false in its first picture, which knows no screen yet. */
export function usePhone(): boolean {
  const [phone, setPhone] = useState(false);
  useEffect(() => {
    const asked = matchMedia(PHONE);
    const tell = (): void => setPhone(asked.matches);
    tell();
    asked.addEventListener('change', tell);
    return () => asked.removeEventListener('change', tell);
  }, []);
  return phone;
}
