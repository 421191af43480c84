using System.Buffers;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Broodtide.Domain.Journal;
using Broodtide.Workbench.Photos;

namespace Broodtide.Workbench.Dossiers;

/// <summary>
/// A dossier as an open data package: a descriptor by the Data Package standard (2.0, readable by version 1 too), tables,
/// the journal, photos, how to cite it. Every resource carries its SHA-256.
/// </summary>
public static class DossierPackage
{
    /// <summary>The name of the descriptor, as the standard demands.</summary>
    public const string DescriptorName = "datapackage.json";

    /// <summary>The name of the journal's file.</summary>
    public const string JournalName = "journal.jsonl";

    /// <summary>The name of the member of the descriptor that is ours.</summary>
    public const string OwnMember = "broodtide";

    /// <summary>The version of our member that is written, and the newest that is read.</summary>
    public const int Version = 1;

    /// <summary>The files of a package, the descriptor first. The same dossier gives the same bytes.</summary>
    /// <param name="dossier">The dossier.</param>
    /// <param name="engine">Name and version of the software that computed it.</param>
    public static IReadOnlyList<PackedFile> Of(Dossier dossier, string engine)
    {
        ArgumentNullException.ThrowIfNull(dossier);
        ArgumentException.ThrowIfNullOrWhiteSpace(engine);
        var tables = DossierTables.Of(dossier).Where(table => table.Rows.Count > 0).ToList();
        var files = new List<PackedFile>();
        var output = new ArrayBufferWriter<byte>();
        using (
            var json = new Utf8JsonWriter(
                output,
                new() { Indented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping }
            )
        )
        {
            json.WriteStartObject();
            WriteHead(json, dossier);
            WriteOwn(json, dossier, engine);
            json.WriteStartArray("resources"u8);
            foreach (var table in tables)
            {
                var file = Add(files, $"tables/{table.Name}.csv", table.ToCsv());
                Describe(
                    json,
                    file,
                    table.Name,
                    table.Title,
                    table.Description,
                    "csv",
                    "text/csv",
                    () => TableDescriptor.Write(json, table)
                );
            }

            Describe(
                json,
                Add(files, JournalName, Journal(dossier)),
                "journal",
                "The journal",
                "The entries as JSON Lines, each with the bytes that its hash is over; the last line holds a hash over all.",
                "jsonl",
                "application/x-ndjson"
            );
            Describe(
                json,
                Add(files, CitationText.FileName, CitationText.Of(dossier)),
                "citation",
                "How to cite it",
                "Citation File Format 1.2.0.",
                "cff",
                "application/yaml"
            );
            foreach (var photo in dossier.Photos)
            {
                var ending = PhotoFormats.EndingOf(photo.Format);
                Describe(
                    json,
                    Add(files, $"photos/{photo.Sha256}{ending}", photo.Bytes.ToArray()),
                    $"photo-{photo.Sha256}",
                    "A photo",
                    photo.Caption ?? "A photo that an entry of the journal names by its hash.",
                    ending[1..],
                    PhotoFormats.MediaTypeOf(photo.Format)
                );
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        return [new(DescriptorName, output.WrittenSpan.ToArray()), .. files];
    }

    private static void WriteHead(Utf8JsonWriter json, Dossier dossier)
    {
        json.WriteString("$schema"u8, "https://datapackage.org/profiles/2.0/datapackage.json");
        json.WriteString("profile"u8, "data-package");
        json.WriteString("name"u8, $"run-{dossier.Runs[0].Value}");
        json.WriteString("title"u8, dossier.Title);
        json.WriteString(
            "description"u8,
            (dossier.IsInvented ? "Invented, to show how it works: nothing of it happened. " : "")
                + "What a keeper wrote down of rearing the larvae of an amphidromous shrimp, and what is computed of it. "
                + (
                    dossier.Choice.Licence is null
                        ? "No licence was chosen: ask its keeper before you use it for more than reading."
                        : ""
                )
        );
        json.WriteString("created"u8, UtcText.Format(dossier.Outlook.Now));
        json.WriteString("version"u8, "1.0.0");
        json.WriteStartArray("keywords"u8);
        foreach (var species in dossier.Species)
        {
            json.WriteStringValue(species);
        }

        json.WriteStringValue("larval rearing");
        json.WriteEndArray();
        if (dossier.Choice.Licence is { } id && Licence.Find(id) is { } licence)
        {
            json.WriteStartArray("licenses"u8);
            json.WriteStartObject();
            json.WriteString("name"u8, licence.Id);
            json.WriteString("path"u8, licence.Address);
            json.WriteString("title"u8, licence.Title);
            json.WriteEndObject();
            json.WriteEndArray();
        }

        if (dossier.Choice.By is { } by)
        {
            json.WriteStartArray("contributors"u8);
            json.WriteStartObject();
            json.WriteString("title"u8, by);
            if (dossier.Choice.Orcid is { } orcid)
            {
                json.WriteString("path"u8, Orcid.AddressOf(orcid));
            }

            json.WriteString("role"u8, "author");
            json.WriteStartArray("roles"u8);
            json.WriteStringValue("creator");
            json.WriteEndArray();
            json.WriteEndObject();
            json.WriteEndArray();
        }
    }

    private static void WriteOwn(Utf8JsonWriter json, Dossier dossier, string engine)
    {
        json.WriteStartObject(OwnMember);
        json.WriteNumber("dossier"u8, Version);
        json.WriteString("engine"u8, engine);
        json.WriteString("toldFor"u8, UtcText.Format(dossier.Outlook.Now));
        json.WriteString("zone"u8, dossier.Outlook.Zone.Id);
        json.WriteString("entries"u8, dossier.Choice.IsWhole ? "as sealed" : "sealed anew");
        json.WriteBoolean("invented"u8, dossier.IsInvented);
        json.WriteStartArray("leftOut"u8);
        foreach (
            var (name, stays) in new[]
            {
                ("names", dossier.Choice.Names),
                ("notes", dossier.Choice.Notes),
                ("place", dossier.Choice.Place),
                ("photos", dossier.Choice.Photos),
            }
        )
        {
            if (!stays)
            {
                json.WriteStringValue(name);
            }
        }

        json.WriteEndArray();
        json.WriteStartArray("runs"u8);
        foreach (var run in dossier.Runs)
        {
            json.WriteStringValue(run.Value.ToString());
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static byte[] Journal(Dossier dossier)
    {
        var text = new StringBuilder();
        foreach (var line in JournalLines.Write(dossier.Entries))
        {
            text.Append(line).Append('\n');
        }

        return Encoding.UTF8.GetBytes(text.ToString());
    }

    private static PackedFile Add(List<PackedFile> files, string path, byte[] bytes)
    {
        var file = new PackedFile(path, bytes);
        files.Add(file);
        return file;
    }

    private static void Describe(
        Utf8JsonWriter json,
        PackedFile file,
        string name,
        string title,
        string description,
        string format,
        string mediaType,
        Action? more = null
    )
    {
        json.WriteStartObject();
        json.WriteString("name"u8, name);
        json.WriteString("path"u8, file.Path);
        json.WriteString("title"u8, title);
        json.WriteString("description"u8, description);
        json.WriteString("format"u8, format);
        json.WriteString("mediatype"u8, mediaType);
        json.WriteNumber("bytes"u8, file.Bytes.Length);
        json.WriteString("hash"u8, $"sha256:{file.Sha256}");
        more?.Invoke();
        json.WriteEndObject();
    }
}
