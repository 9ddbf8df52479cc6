// What the loft's slip uses of CodeMirror, as one file: tools/assets.py bundles it into the assets.
export { autocompletion } from '@codemirror/autocomplete';
export { defaultKeymap } from '@codemirror/commands';
export { HighlightStyle, StreamLanguage, syntaxHighlighting } from '@codemirror/language';
export { Annotation, EditorState, RangeSet, StateEffect, StateField } from '@codemirror/state';
export { Decoration, EditorView, GutterMarker, WidgetType, drawSelection, keymap, lineNumberMarkers, lineNumbers } from '@codemirror/view';
export { tags } from '@lezer/highlight';
