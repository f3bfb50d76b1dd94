# Sentences and headings of the papers.
