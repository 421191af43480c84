using System.IO.Compression;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Broodtide.Domain.Journal;
using Broodtide.Phone.Language;
using Broodtide.Workbench.Dossiers;

namespace Broodtide.Phone.Dossiers;

/// <summary>
/// The published app's own files as a page can carry them: packed, as text, each under its name. With them a dossier's page
/// computes its numbers again wherever it is opened.
/// </summary>
internal sealed class CarriedEngine
{
    /// <summary>The app's list of its own files.</summary>
    public const string ListName = "service-worker-assets.js";

    /// <summary>The script that runs them.</summary>
    public const string ScriptName = "js/replay.js";

    private const string Folder = "_framework/";

    private readonly string _script;
    private readonly string _files;

    private CarriedEngine(string script, string files) => (_script, _files) = (script, files);

    /// <summary>The files that compute, from the app's list of its files.</summary>
    /// <exception cref="FormatException">It is no such list.</exception>
    public static IReadOnlyList<string> FilesIn(string list)
    {
        try
        {
            using var json = JsonDocument.Parse(list[list.IndexOf('{')..(list.LastIndexOf('}') + 1)]);
            var files = json
                .RootElement.GetProperty("assets")
                .EnumerateArray()
                .Select(asset => asset.GetProperty("url").GetString()!)
                .Where(name =>
                    name.StartsWith(Folder, StringComparison.Ordinal) && Computes(name[Folder.Length..])
                )
                .Order(StringComparer.Ordinal)
                .ToList();
            return files.Count > 0 ? files : throw new FormatException();
        }
        catch (Exception wrong)
            when (wrong is JsonException or ArgumentOutOfRangeException or KeyNotFoundException)
        {
            throw new FormatException("The list of the app's files cannot be read.", wrong);
        }
    }

    /// <summary>The engine, of the bytes of its files.</summary>
    /// <param name="files">Each name of <see cref="FilesIn"/> with its bytes.</param>
    /// <param name="script">The script that runs them.</param>
    public static CarriedEngine Of(IEnumerable<(string Name, byte[] Bytes)> files, string script)
    {
        var text = new StringBuilder();
        foreach (var (name, bytes) in files)
        {
            using var packed = new MemoryStream();
            using (var gzip = new GZipStream(packed, CompressionLevel.Optimal, leaveOpen: true))
            {
                gzip.Write(bytes);
            }

            Put(text, name[Folder.Length..], packed.ToArray());
        }

        return new(script, text.ToString());
    }

    /// <summary>What the page of a dossier holds at its end.</summary>
    public string MarkupFor(Dossier dossier, Words words)
    {
        var text = new StringBuilder(_files);
        var journal = new StringBuilder();
        foreach (var line in JournalLines.Write(dossier.Entries))
        {
            journal.Append(line).Append('\n');
        }

        Put(text, "journal.jsonl", Encoding.UTF8.GetBytes(journal.ToString()));
        Put(text, "estimates.csv", DossierEstimates.Of(dossier).ToCsv());
        Put(text, "about.json", About(dossier, words));
        return text.Append("<script type=\"module\">\n").Append(_script).Append("</script>\n").ToString();
    }

    // The scripts and assemblies; not what opens the pages of the app.
    private static bool Computes(string name) =>
        name.EndsWith(".wasm", StringComparison.Ordinal)
        || (
            name.StartsWith("dotnet.", StringComparison.Ordinal)
            && name.EndsWith(".js", StringComparison.Ordinal)
        );

    private static void Put(StringBuilder text, string name, byte[] bytes) =>
        text.Append("<script type=\"text/plain\" data-name=\"")
            .Append(HtmlEncoder.Default.Encode(name))
            .Append("\">")
            .Append(Convert.ToBase64String(bytes))
            .Append("</script>\n");

    private static byte[] About(Dossier dossier, Words words)
    {
        using var output = new MemoryStream();
        using (var json = new Utf8JsonWriter(output))
        {
            json.WriteStartObject();
            json.WriteStartArray("runs"u8);
            foreach (var run in dossier.Runs)
            {
                json.WriteStringValue(run.Value.ToString());
            }

            json.WriteEndArray();
            json.WriteString("toldFor"u8, UtcText.Format(dossier.Outlook.Now));
            json.WriteString("zone"u8, dossier.Outlook.Zone.Id);
            foreach (var word in new[] { "same", "other", "failed" })
            {
                json.WriteString(
                    word,
                    words[$"dossier.replay.{word}", "{numbers}", "{different}", "{seconds}"]
                );
            }

            json.WriteEndObject();
        }

        return output.ToArray();
    }
}
