using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using NodaTime.Text;

namespace Broodtide.Workbench.Dossiers;

/// <summary>How a dossier is to be cited: a CITATION.cff file, format 1.2.0, and one sentence.</summary>
public static class CitationText
{
    /// <summary>The name of the file, as its format demands.</summary>
    public const string FileName = "CITATION.cff";

    private const string Nobody = "A keeper who is not named";

    /// <summary>The file.</summary>
    public static byte[] Of(Dossier dossier)
    {
        ArgumentNullException.ThrowIfNull(dossier);
        var text = new StringBuilder();
        text.Append("cff-version: 1.2.0\n")
            .Append("message: ")
            .Append(Quoted("If you use these data, please cite them as below."))
            .Append("\ntype: dataset\ntitle: ")
            .Append(Quoted(dossier.Title))
            .Append("\nauthors:\n  - name: ")
            .Append(Quoted(dossier.Choice.By ?? Nobody))
            .Append('\n');
        if (dossier.Choice.Orcid is { } orcid)
        {
            text.Append("    orcid: ").Append(Quoted(Orcid.AddressOf(orcid))).Append('\n');
        }

        text.Append("date-released: ").Append(DayOf(dossier)).Append('\n');
        if (dossier.Choice.Licence is { } licence)
        {
            text.Append("license: ").Append(licence).Append('\n');
        }

        text.Append("keywords:\n");
        foreach (var species in dossier.Species)
        {
            text.Append("  - ").Append(Quoted(species)).Append('\n');
        }

        text.Append("  - \"larval rearing\"\n");
        return Encoding.UTF8.GetBytes(text.ToString());
    }

    /// <summary>One sentence to cite it by.</summary>
    /// <param name="dossier">The dossier.</param>
    /// <param name="nobody">What to write where no author is named.</param>
    public static string Sentence(Dossier dossier, string nobody)
    {
        ArgumentNullException.ThrowIfNull(dossier);
        var day = dossier.Outlook.Now.InZone(dossier.Outlook.Zone).Date;
        var by = dossier.Choice.By ?? nobody;
        return FormattableString.Invariant(
            $"{by} ({day.Year}): {dossier.Title}. Broodtide, {DayOf(dossier)}."
        );
    }

    private static string DayOf(Dossier dossier) =>
        LocalDatePattern.Iso.Format(dossier.Outlook.Now.InZone(dossier.Outlook.Zone).Date);

    // A JSON string is a quoted scalar of YAML 1.2.
    private static string Quoted(string text) =>
        $"\"{JsonEncodedText.Encode(text, JavaScriptEncoder.UnsafeRelaxedJsonEscaping)}\"";
}
