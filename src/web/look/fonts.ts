// Served from our own files; nothing is fetched from elsewhere. Both under the SIL Open Font License.
import '@fontsource-variable/literata/wght.css';
import '@fontsource-variable/source-sans-3/wght.css';
