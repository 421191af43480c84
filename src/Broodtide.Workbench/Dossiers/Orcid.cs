using Broodtide.Units;

namespace Broodtide.Workbench.Dossiers;

/// <summary>The number under which a person who publishes can be found, sixteen figures of which the last is a check.</summary>
public static class Orcid
{
    private const string Prefix = "https://orcid.org/";
    private const int Figures = 16;

    /// <summary>
    /// The number of a text, in groups of four; or what is wrong with it. The last figure is checked by ISO/IEC 7064,
    /// MOD 11-2, where ten is written X.
    /// </summary>
    /// <param name="text">With or without its address, with or without hyphens.</param>
    public static Parsed<string> Parse(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var bare = text.Trim();
        bare = bare.StartsWith(Prefix, StringComparison.OrdinalIgnoreCase) ? bare[Prefix.Length..] : bare;
        var figures = bare.Replace("-", "", StringComparison.Ordinal).ToUpperInvariant();
        if (
            figures.Length != Figures
            || !figures[..^1].All(char.IsAsciiDigit)
            || !(char.IsAsciiDigit(figures[^1]) || figures[^1] == 'X')
        )
        {
            return Parsed<string>.No("orcid-not-sixteen", new Argument("typed", text));
        }

        return Check(figures) == figures[^1]
            ? Parsed<string>.Of(string.Join('-', figures.Chunk(4).Select(group => new string(group))))
            : Parsed<string>.No("orcid-check-figure", new Argument("typed", text));
    }

    /// <summary>The address of a number that was parsed.</summary>
    public static string AddressOf(string number) => Prefix + number;

    private static char Check(string figures)
    {
        var total = 0;
        foreach (var figure in figures[..^1])
        {
            total = (total + (figure - '0')) * 2 % 11;
        }

        var check = (12 - total) % 11;
        return check == 10 ? 'X' : (char)('0' + check);
    }
}
