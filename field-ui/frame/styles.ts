import '@fontsource/b612/400.css';
import '@fontsource/b612/400-italic.css';
import '@fontsource/b612/700.css';
import '@fontsource/b612-mono/400.css';
import '../../shared/ui/theme.css';
import './base.css';
import './controls.css';
import './sheet.css';
