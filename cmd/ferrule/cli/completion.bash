# Completion of ferrule for bash -*- shell-script -*-
#
# Nothing that stands on the line is evaluated, neither what was typed nor a name out of a
# workbook, and all that is offered is quoted, so that a name such as $(…) stays a name.

# Takes the line up to the cursor apart: words without their quotation marks; the last of
# them is to be completed. open is the quotation mark that is open there, and skip how many
# of its letters stand before what readline takes for the word.
__ferrule_words()
{
    local line=${COMP_LINE:0:COMP_POINT} c word='' begun='' base=0 i
    words=() open='' skip=0
    for ((i = 0; i < ${#line}; i++)); do
        c=${line:i:1}
        case $open$c in
            "''" | '""') open='' skip=$base ;;
            "'"?) word+=$c ;;
            '"\')
                [[ ${line:i+1:1} == [\$\`\"\\] ]] && ((++i))
                word+=${line:i:1}
                ;;
            '"'?) word+=$c ;;
            [\'\"]) open=$c begun=1 skip=${#word} ;;
            '\') ((++i)) && word+=${line:i:1} begun=1 ;;
            [$' \t\n'])
                [[ -n $begun ]] && words+=("$word")
                word='' begun='' base=0 skip=0
                ;;
            *)
                word+=$c begun=1
                [[ $COMP_WORDBREAKS == *"$c"* ]] && base=${#word} skip=$base
                ;;
        esac
    done
    words+=("$word")
}

# Quotes a name for where it will stand.
__ferrule_quote()
{
    case $open in
        "'") quoted=${1//\'/\'\\\'\'} ;;
        '"') quoted=${1//[\\]/\\\\} quoted=${quoted//\"/\\\"} quoted=${quoted//\$/\\\$} quoted=${quoted//\`/\\\`} ;;
        *) printf -v quoted %q "$1" ;;
    esac
}

__start_ferrule()
{
    local program=$1 words open skip quoted reply replies=() directive i
    COMPREPLY=()
    __ferrule_words
    while [[ ${#words[@]} -gt 1 && ${words[0]} == [A-Za-z_]*=* ]]; do
        words=("${words[@]:1}") # a variable that is set for the command
    done
    [[ ${#words[@]} -gt 1 ]] || return
    [[ $program == '~/'* ]] && program=$HOME/${program:2}
    for i in "${!words[@]}"; do
        [[ ${words[i]} == '~/'* ]] && words[i]=$HOME/${words[i]:2}
    done
    while IFS='' read -r reply; do
        replies+=("$reply")
    done < <("$program" __completeNoDesc "${words[@]:1}" 2>/dev/null)
    ((${#replies[@]} > 0)) || return
    directive=${replies[${#replies[@]} - 1]#:}
    for ((i = 0; i < ${#replies[@]} - 1; i++)); do
        __ferrule_quote "${replies[i]:skip}"
        COMPREPLY+=("$quoted")
    done
    if [[ $(type -t compopt) == builtin ]]; then # since bash 4
        ((directive & 2)) && compopt -o nospace
        ((directive & 4)) && compopt +o default
    fi
    return 0
}

complete -o default -F __start_ferrule ferrule
