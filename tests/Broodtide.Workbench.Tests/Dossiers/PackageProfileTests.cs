using System.Globalization;
using System.Text.Json;
using Broodtide.Workbench.Dossiers;
using Json.Schema;
using Microsoft.VisualBasic.FileIO;
using static Broodtide.Workbench.Tests.Dossiers.InventedDossiers;

namespace Broodtide.Workbench.Tests.Dossiers;

/// <summary>
/// Packages against the published profiles of the Data Package standard with a general JSON Schema validator
/// (JsonSchema.Net 8.0.5), and their tables against their own schemas with the CSV reader of the framework.
/// </summary>
public class PackageProfileTests
{
    private static JsonSchema Profile(string name) =>
        // The profiles are written for draft 4; nothing in them means another thing in draft 6, which the validator knows.
        JsonSchema.FromText(
            File.ReadAllText(SpeciesFiles.At("reference/data-package", name))
                .Replace("draft-04", "draft-06", StringComparison.Ordinal)
        );

    private static readonly JsonSchema Package = Profile("data-package.json");
    private static readonly JsonSchema Table = Profile("tabular-data-resource.json");

    private static async Task<IReadOnlyList<PackedFile>> FilesAsync() =>
        DossierPackage.Of(
            await OfAsync(
                new()
                {
                    Names = true,
                    Notes = true,
                    By = "Josiah Carberry",
                    Licence = "CC-BY-4.0",
                    Orcid = "0000-0002-1825-0097",
                }
            ),
            Engine
        );

    [Fact]
    public async Task The_descriptor_fits_the_published_profile_with_and_without_a_licence()
    {
        foreach (var files in new[] { await FilesAsync(), DossierPackage.Of(await OfAsync(), Engine) })
        {
            using var json = JsonDocument.Parse(files[0].Bytes);
            Assert.True(Package.Evaluate(json.RootElement).IsValid);
            var tables = json
                .RootElement.GetProperty("resources")
                .EnumerateArray()
                .Where(resource => resource.TryGetProperty("schema", out _))
                .ToList();
            Assert.True(tables.Count >= 8);
            Assert.All(tables, table => Assert.True(Table.Evaluate(table).IsValid, table.GetRawText()));
        }
    }

    [Theory]
    [InlineData("\"name\": \"vessels\"", "\"name\": \"Vessels and Jars\"")]
    [InlineData("\"path\": \"tables/vessels.csv\"", "\"path\": 7")]
    [InlineData("\"type\": \"boolean\"", "\"type\": \"perhaps\"")]
    [InlineData("\"hash\": \"sha256:", "\"hash\": \"sha256:not hex ")]
    public async Task A_spoilt_descriptor_does_not_fit(string was, string now)
    {
        var text = System.Text.Encoding.UTF8.GetString((await FilesAsync())[0].Bytes.Span);
        var at = text.IndexOf(was, StringComparison.Ordinal);
        using var json = JsonDocument.Parse(text.Remove(at, was.Length).Insert(at, now));
        Assert.False(
            Package.Evaluate(json.RootElement).IsValid
                && json.RootElement.GetProperty("resources")
                    .EnumerateArray()
                    .Where(resource => resource.TryGetProperty("schema", out _))
                    .All(table => Table.Evaluate(table).IsValid)
        );
    }

    [Fact]
    public async Task Every_cell_of_every_table_is_what_its_schema_says()
    {
        var files = await FilesAsync();
        using var json = JsonDocument.Parse(files[0].Bytes);
        var cells = 0;
        foreach (var resource in json.RootElement.GetProperty("resources").EnumerateArray())
        {
            if (!resource.TryGetProperty("schema", out var schema))
            {
                continue;
            }

            var fields = schema.GetProperty("fields").EnumerateArray().ToList();
            var file = files.Single(file => file.Path == resource.GetProperty("path").GetString());
            using var stream = new MemoryStream(file.Bytes.ToArray());
            using var reader = new TextFieldParser(stream) { Delimiters = [","], TrimWhiteSpace = false };
            Assert.Equal(fields.Select(field => field.GetProperty("name").GetString()), reader.ReadFields());
            while (reader.ReadFields() is { } row)
            {
                Assert.Equal(fields.Count, row.Length);
                foreach (var (field, cell) in fields.Zip(row))
                {
                    Assert.True(Fits(field, cell), $"{file.Path} {field.GetRawText()}: {cell}");
                    cells++;
                }
            }
        }

        Assert.True(cells > 1000, $"{cells} cells");
    }

    private static bool Fits(JsonElement field, string cell)
    {
        var has = field.TryGetProperty("constraints", out var constraints);
        if (cell.Length == 0)
        {
            return !(
                has && constraints.TryGetProperty("required", out var required) && required.GetBoolean()
            );
        }

        return (
                !has
                || !constraints.TryGetProperty("enum", out var codes)
                || codes.EnumerateArray().Any(code => code.GetString() == cell)
            )
            && field.GetProperty("type").GetString() switch
            {
                "number" => double.TryParse(
                    cell,
                    NumberStyles.AllowLeadingSign
                        | NumberStyles.AllowDecimalPoint
                        | NumberStyles.AllowExponent,
                    CultureInfo.InvariantCulture,
                    out _
                ),
                "integer" => long.TryParse(
                    cell,
                    NumberStyles.AllowLeadingSign,
                    CultureInfo.InvariantCulture,
                    out _
                ),
                "boolean" => cell is "true" or "false",
                "datetime" => DateTime.TryParseExact(
                    cell,
                    "yyyy-MM-dd'T'HH:mm:ss'Z'",
                    CultureInfo.InvariantCulture,
                    DateTimeStyles.None,
                    out _
                ),
                "string" => true,
                _ => false,
            };
    }
}
