using System.Text;
using Broodtide.Units;
using Broodtide.Workbench.Species;

namespace Broodtide.Workbench.People;

/// <summary>
/// What a passphrase must be: long, and none of those that are tried first. What it is made of is nobody's business
/// (the idea of NIST SP 800-63B, section 5.1.1.2: length instead of a mixture, a list of common values and the
/// service's own names refused, pasting allowed).
/// </summary>
public static class PassphraseRules
{
    /// <summary>Fewest characters; decided, above the eight that NIST SP 800-63B asks for at least.</summary>
    public const int LeastCharacters = 12;

    /// <summary>Most characters; decided, above the sixty-four that NIST SP 800-63B asks to allow at least.</summary>
    public const int MostCharacters = 200;

    // What must be left when the house's own names are taken out: decided.
    private const int LeastBesideNames = 6;

    // Tried first by everybody who tries; from memory, no source.
    private static readonly string[] Common =
    [
        "password",
        "passw0rd",
        "passwort",
        "qwerty",
        "qwertyuiop",
        "qwertz",
        "qwertzuiop",
        "asdfghjkl",
        "letmein",
        "welcome",
        "iloveyou",
        "admin",
        "administrator",
        "changeme",
        "hello",
        "secret",
        "master",
        "monkey",
        "dragon",
        "football",
        "princess",
        "sunshine",
        "correcthorsebatterystaple",
    ];

    private static readonly string[] OwnNames =
    [
        "broodtide",
        .. SpeciesProfiles
            .Known.SelectMany(species => species.Code.Split('-'))
            .Where(word => word.Length > 3)
            .Distinct(StringComparer.Ordinal),
        "shrimp",
        "journal",
        "keeper",
    ];

    /// <summary>Why a passphrase will not do; none where it does.</summary>
    /// <param name="passphrase">As typed; spaces count.</param>
    /// <param name="person">The person's name, which must not be most of it.</param>
    public static Remark? Against(string passphrase, string person)
    {
        var length = passphrase.EnumerateRunes().Count();
        if (length < LeastCharacters)
        {
            return new Remark("passphrase-too-short", new Argument("least", LeastCharacters));
        }

        if (length > MostCharacters)
        {
            return new Remark("passphrase-too-long", new Argument("most", MostCharacters));
        }

        var plain = Plain(passphrase);
        return IsCommon(plain) ? new Remark("passphrase-common")
            : IsMadeOfNames(plain, person) ? new Remark("passphrase-own-name")
            : null;
    }

    // Case, spaces and marks do not make a common one rare.
    private static string Plain(string text)
    {
        var plain = new StringBuilder(text.Length);
        foreach (var rune in text.EnumerateRunes().Where(Rune.IsLetterOrDigit))
        {
            plain.Append(Rune.ToLowerInvariant(rune));
        }

        return plain.ToString();
    }

    private static bool IsCommon(string plain)
    {
        var unit = Unit(plain);
        var letters = unit.Trim("0123456789".ToCharArray());
        // All digits, a short piece over and over, a row of the alphabet or of a keyboard, or a common word.
        return letters.Length == 0
            || unit.Length < LeastCharacters / 2
            || IsRow(plain)
            || Common.Contains(letters, StringComparer.Ordinal)
            || Common.Contains(unit, StringComparer.Ordinal);
    }

    // The shortest piece that the text repeats.
    private static string Unit(string plain)
    {
        for (var length = 1; length <= plain.Length / 2; length++)
        {
            if (
                plain.Length % length == 0
                && Enumerable.Range(length, plain.Length - length).All(at => plain[at] == plain[at - length])
            )
            {
                return plain[..length];
            }
        }

        return plain;
    }

    private static bool IsRow(string plain) =>
        plain.Zip(plain.Skip(1)).All(pair => pair.Second - pair.First == 1)
        || plain.Zip(plain.Skip(1)).All(pair => pair.First - pair.Second == 1);

    private static bool IsMadeOfNames(string plain, string person)
    {
        string[] names = [.. OwnNames, .. person.Split(' ').Select(Plain).Where(part => part.Length > 2)];
        var left = names.Aggregate(plain, (text, name) => text.Replace(name, "", StringComparison.Ordinal));
        return left.Length < plain.Length && left.Length < LeastBesideNames;
    }
}
