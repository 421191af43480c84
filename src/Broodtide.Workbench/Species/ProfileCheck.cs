using System.Collections.Immutable;

namespace Broodtide.Workbench.Species;

/// <summary>
/// Looks at one member after the other and keeps the first fault. Each look gives something to go on with, which
/// is thrown away if there is a fault.
/// </summary>
internal sealed class ProfileCheck
{
    private const int LongestFound = 60;

    internal ProfileFault? Fault { get; private set; }

    internal void Say(string code, string place, string? found, params ReadOnlySpan<string> allowed)
    {
        var shown = found ?? "";
        Fault ??= new(code, place, shown.Length > LongestFound ? shown[..LongestFound] : shown, [.. allowed]);
    }

    internal T Missing<T>(string place, T instead)
    {
        Say(ProfileFaultCodes.Missing, place, "");
        return instead;
    }

    internal string Text(string? text, string place) =>
        string.IsNullOrWhiteSpace(text) ? Missing(place, "") : text;

    internal string? TextOrNone(string? text, string place) => text is null ? null : Text(text, place);

    /// <summary>Small letters and digits, in words joined by single hyphens.</summary>
    internal string Code(string? text, string place)
    {
        var code = Text(text, place);
        var fine = code.Split('-').All(word => word.Length > 0 && word.All(IsCodeLetter));
        if (!fine)
        {
            Say(ProfileFaultCodes.NotAllowed, place, code, "a-z", "0-9", "-");
        }

        return code;
    }

    internal T Word<T>(string? text, string place, ImmutableArray<KeyValuePair<string, T>> words)
    {
        foreach (var (word, meaning) in words)
        {
            if (string.Equals(word, text, StringComparison.Ordinal))
            {
                return meaning;
            }
        }

        Say(
            text is null ? ProfileFaultCodes.Missing : ProfileFaultCodes.NotAllowed,
            place,
            text,
            [.. words.Select(word => word.Key)]
        );
        return words[0].Value;
    }

    internal Provenance Provenance(string? word, string at) =>
        Word(word, $"{at}.provenance", ProfileWords.Provenances);

    internal string? BorrowedFrom(Provenance provenance, string? species, string at)
    {
        if (provenance == Species.Provenance.Borrowed)
        {
            return Text(species, $"{at}.borrowedFrom");
        }

        if (species is not null)
        {
            Say(ProfileFaultCodes.NotExpected, $"{at}.borrowedFrom", species);
        }

        return null;
    }

    internal ProfileAmount Amount(ProfileUnit unit, double? value, double? low, double? high, string at)
    {
        Number(unit, low, $"{at}.low");
        Number(unit, value, $"{at}.value");
        Number(unit, high, $"{at}.high");
        if (!ProfileAmount.Ascend(value, low, high))
        {
            Say(ProfileFaultCodes.NotAscending, at, $"{low}, {value}, {high}", "low", "value", "high");
        }

        if (value is null && low is null && high is null)
        {
            Say(ProfileFaultCodes.Missing, at, "", "value", "low", "high");
        }

        return Fault is null ? ProfileAmount.FromParts(value, low, high) : default;
    }

    internal ImmutableArray<TOut> Rows<TIn, TOut>(
        TIn?[]? rows,
        string place,
        Func<TIn, string, TOut> read,
        bool mayBeEmpty = false
    )
        where TIn : class
    {
        if (rows is null || (rows.Length == 0 && !mayBeEmpty))
        {
            return Missing<ImmutableArray<TOut>>(place, []);
        }

        var result = ImmutableArray.CreateBuilder<TOut>(rows.Length);
        for (var i = 0; i < rows.Length && Fault is null; i++)
        {
            if (rows[i] is { } row)
            {
                result.Add(read(row, $"{place}[{i}]"));
            }
            else
            {
                Say(ProfileFaultCodes.Missing, $"{place}[{i}]", "null");
            }
        }

        return result.ToImmutable();
    }

    internal void Unique(IEnumerable<string> codes, string place)
    {
        var seen = new HashSet<string>(StringComparer.Ordinal);
        var i = 0;
        foreach (var code in codes)
        {
            if (!seen.Add(code))
            {
                Say(ProfileFaultCodes.Twice, $"{place}[{i}].code", code);
            }

            i++;
        }
    }

    private static bool IsCodeLetter(char letter) =>
        char.IsAsciiLetterLower(letter) || char.IsAsciiDigit(letter);

    private void Number(ProfileUnit unit, double? number, string place)
    {
        if (number is { } n && !unit.Allows(n))
        {
            Say(ProfileFaultCodes.NotAllowed, place, $"{n}", unit.Code);
        }
    }
}
