using System.Text.Json;
using System.Text.Json.Nodes;
using Broodtide.Workbench.Species;
using Json.Schema;

namespace Broodtide.Workbench.Tests;

/// <summary>docs/species-profile.schema.json, draft 2020-12, with an independent validator.</summary>
public sealed class SpeciesSchemaTests
{
    private static readonly string Text = File.ReadAllText(
        SpeciesFiles.At("docs", "species-profile.schema.json")
    );

    private static readonly JsonSchema Schema = JsonSchema.FromText(Text);

    private static bool IsValid(string json)
    {
        using var document = JsonDocument.Parse(json);
        return Schema.Evaluate(document.RootElement).IsValid;
    }

    [Fact]
    public void Every_profile_file_fits_the_schema()
    {
        var files = Directory.GetFiles(Path.GetDirectoryName(SpeciesFiles.At("species", "any"))!, "*.json");
        Assert.Equal(SpeciesProfiles.All.Length, files.Length);
        Assert.All(files, file => Assert.True(IsValid(File.ReadAllText(file)), file));
    }

    [Theory]
    [InlineData("\"format\": 1", "\"format\": 2")]
    [InlineData("\"format\": 1,", "\"format\": 1, \"colour\": 3,")]
    [InlineData("\"code\": \"caridina-multidentata\"", "\"code\": \"Caridina\"")]
    [InlineData("\"unit\": \"Cel.d\"", "\"unit\": \"degree-day\"")]
    [InlineData("\"value\": 637.5", "\"value\": \"637,5\"")]
    [InlineData("\"value\": 637.5,", "")]
    [InlineData("\"value\": 637.5", "\"value\": 637.5, \"high\": 700")]
    [InlineData("\"value\": 637.5", "\"value\": 637.5, \"bounds\": \"range\"")]
    [InlineData("\"provenance\": \"measured\"", "\"provenance\": \"read\"")]
    [InlineData("\"provenance\": \"measured\"", "\"provenance\": \"borrowed\"")]
    [InlineData("\"code\": \"larval-salinity-target\"", "\"code\": \"larval-salinity-aim\"")]
    [InlineData("\"when\": \"about\"", "\"when\": \"soon\"")]
    [InlineData("\"is\": \"night\"", "\"is\": \"At night\"")]
    public void A_spoilt_file_does_not_fit_the_schema(string was, string now)
    {
        var at = SpeciesFiles.ProfileText.IndexOf(was, StringComparison.Ordinal);
        Assert.False(IsValid(SpeciesFiles.ProfileText.Remove(at, was.Length).Insert(at, now)));
    }

    [Fact]
    public void The_schema_lists_the_units_the_reader_knows()
    {
        var units = JsonNode.Parse(Text)!["$defs"]!["unit"]!["enum"]!.AsArray().Select(unit => (string)unit!);
        Assert.Equal(ProfileUnit.All.Select(unit => unit.Code), units);
    }

    [Fact]
    public void The_schema_demands_the_quantities_the_reader_demands()
    {
        var demanded = JsonNode.Parse(Text)!["properties"]!["quantities"]!["allOf"]!
            .AsArray()
            .Select(row => (string)row!["contains"]!["properties"]!["code"]!["const"]!);
        var known = typeof(QuantityCodes).GetFields().Select(field => (string)field.GetRawConstantValue()!);
        Assert.Equal(known.Order(StringComparer.Ordinal), demanded.Order(StringComparer.Ordinal));
    }
}
