# The comment at the head of a header, where its formulas, symbols and sources stand, as Doxygen reads one.
function finish() {
    if (started) print (verbatim ? "@endverbatim\n" : "") "*/"
    done = 1
}
!done && /^#pragma once/ { print; next }
!done && /^\/\// {
    sub(/^\/\/ ?/, "")
    gsub(/\*\//, "* /")
    if (!started) { printf "/** @file\n"; started = 1; first = 1 }
    if (first && $0 == "") { first = 0; print ""; next }
    if (first) { gsub(/[@\\<>&#"%]/, "\\\\&"); print; next }
    if (!verbatim) { print "@verbatim"; verbatim = 1 }
    print
    next
}
!done { finish() }
# Ratios are types of their own; by their alias Doxygen cannot tell the overloads apart.
/^using [A-Za-z]+ = Ratio<.*>;$/ {
    name = $2
    base = $0
    sub(/^using [A-Za-z]+ = /, "", base)
    sub(/;$/, "", base)
    print "class " name " : public " base " {};"
    next
}
# Words are words: no commands, tags or links in what stands after ///.
match($0, /\/\/\/<?/) {
    words = substr($0, RSTART + RLENGTH)
    gsub(/[@\\<>&#%]/, "\\\\&", words)
    gsub(/::/, "\\\\::", words)
    print substr($0, 1, RSTART + RLENGTH - 1) words
    next
}
{ print }
END { if (!done) finish() }
