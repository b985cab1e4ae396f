import { render } from 'preact';

render(<p>…</p>, document.getElementById('page')!);
