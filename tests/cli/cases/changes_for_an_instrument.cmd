insideline changes "$CORPUS/lantern-street.changes" --for alto-sax -o alto.changes && cat alto.changes
