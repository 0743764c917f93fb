# Completes sootsayer in bash, from 3.2. Written by: sootsayer completion bash
# It starts no program but awk, and reads only the names of cases and the ids of packs.

_sootsayer_table=@TABLE@
_sootsayer_rules=@RULES@
_sootsayer_cases=@CASES@

# The shop's own folder as the program finds it, into shop; empty where there is none.
_sootsayer_find_shop() {
    shop=${shop:-${SOOTSAYER_SHOP-}}
    [[ -n $shop ]] && return
    local folder=$PWD
    while [[ -n $folder && ! -f $folder/shop.yaml ]]; do
        folder=${folder%/*}
    done
    shop=$folder
}

# Offers a word if it begins as what is typed. What is no plain name is never offered.
_sootsayer_word() {
    [[ $1 == "$current"* && $1 =~ ^[A-Za-z0-9._-]+$ ]] && COMPREPLY[${#COMPREPLY[@]}]=$1
}

# Offers the names of the YAML files in the folders.
_sootsayer_names() {
    local folder file
    for folder; do
        for file in "$folder"/*.yaml; do
            [[ -f $file ]] || continue
            file=${file##*/}
            [[ $file == people.yaml ]] || _sootsayer_word "${file%.yaml}"
        done
    done
}

# Offers the ids in the sections (as $1, a pattern) of the packs in force.
_sootsayer_ids() {
    local id
    while IFS= read -r id; do
        _sootsayer_word "$id"
    done < <(cat "$_sootsayer_rules"/*.yaml ${shop:+"$shop"/packs/*.yaml} 2>/dev/null |
        awk -v wanted="^($1):" '/^[a-z]/ { inside = $0 ~ wanted }
            inside && /^  [a-z0-9][a-z0-9-]*:/ { sub(/:.*/, ""); print $1 }')
}

# Offers files or folders by what compgen says of them.
_sootsayer_files() {
    local file
    compopt -o filenames 2>/dev/null
    while IFS= read -r file; do
        COMPREPLY[${#COMPREPLY[@]}]=$file
    done < <(compgen "$@" -- "$current")
}

_sootsayer_value() {
    local word
    _sootsayer_find_shop
    case ${1%\*} in
        case)
            _sootsayer_names "${shop:-.}/cases" "$_sootsayer_cases"
            [[ -n $current && ${#COMPREPLY[@]} -gt 0 ]] || _sootsayer_files -f -X '!*.yaml'
            [[ -n $current && ${#COMPREPLY[@]} -gt 0 ]] || _sootsayer_files -d
            ;;
        pack)
            _sootsayer_files -f -X '!*.yaml'
            _sootsayer_files -d
            ;;
        id) _sootsayer_ids 'actions|channels|checks|families|faults|findings|interlocks|limits|quantities|remedies|signals' ;;
        fault) _sootsayer_ids faults ;;
        remedy) _sootsayer_ids remedies ;;
        action) _sootsayer_ids actions ;;
        language)
            _sootsayer_word en
            for word in "$_sootsayer_rules"/words/*/ ${shop:+"$shop"/words/*/}; do
                [[ -d $word ]] || continue
                word=${word%/}
                _sootsayer_word "${word##*/}"
            done
            ;;
        file) _sootsayer_files -f ;;
        folder | shop) _sootsayer_files -d ;;
        =*)
            local IFS=,
            for word in ${1#=}; do
                _sootsayer_word "$word"
            done
            ;;
    esac
}

# What the table says of the word $1 at this path, into found and value.
_sootsayer_look_up() {
    local at what word says
    found='' value=''
    while IFS='|' read -r at what word value says; do
        if [[ $at == "$path" && $what != place && $word == "$1" ]]; then
            found=$what
            return
        fi
    done <<<"$_sootsayer_table"
    value=
}

_sootsayer() {
    local IFS=$' \t\n' path='' shop='' waits='' found='' value='' word at what says i
    local count=0 nth=0 places='' current=${COMP_WORDS[COMP_CWORD]}
    COMPREPLY=()
    for ((i = 1; i < COMP_CWORD; i++)); do
        word=${COMP_WORDS[i]}
        if [[ -n $waits ]]; then
            [[ $word == = ]] && continue
            [[ $waits == shop ]] && shop=${word/#\~/$HOME}
            waits=
            continue
        fi
        if [[ -z $places && $word == -- ]]; then
            places=only
            continue
        fi
        [[ -z $places ]] && _sootsayer_look_up "$word" || found=
        case $found in
            command) path=${path:+$path }$word count=0 ;;
            option) waits=$value ;;
            *) [[ $word == -* && -z $places ]] || count=$((count + 1)) ;;
        esac
    done
    [[ $current == = ]] && current=
    if [[ -n $waits ]]; then
        _sootsayer_value "$waits"
        return
    fi
    while IFS='|' read -r at what word value says; do
        [[ $at == "$path" ]] || continue
        case $what in
            option) [[ $current == -* && -z $places ]] && _sootsayer_word "$word" ;;
            command) [[ $count == 0 ]] && _sootsayer_word "$word" ;;
            place)
                [[ $current == -* && -z $places ]] && continue
                [[ $nth == "$count" || ($value == *\* && $nth -lt $count) ]] && _sootsayer_value "$value"
                nth=$((nth + 1))
                ;;
        esac
    done <<<"$_sootsayer_table"
}

complete -F _sootsayer sootsayer
