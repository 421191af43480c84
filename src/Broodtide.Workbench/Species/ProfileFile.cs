using System.Text.Json.Serialization;

namespace Broodtide.Workbench.Species;

/// <summary>The file as it stands: everything may be missing, nothing is checked yet.</summary>
internal sealed record ProfileFile(
    int? Format,
    string? Code,
    string? ScientificName,
    QuantityRow?[]? Quantities,
    FactRow?[]? Facts,
    StageRow?[]? Stages
);

internal sealed record QuantityRow(
    string? Code,
    string? Unit,
    double? Value,
    double? Low,
    double? High,
    string? Bounds,
    string? PublishedRange,
    string? Meaning,
    string? Provenance,
    string? BorrowedFrom,
    string? Source,
    string? CitedIn,
    string? Note,
    ReportRow?[]? Reports
);

internal sealed record ReportRow(
    double? Value,
    double? Low,
    double? High,
    string? Condition,
    string? Provenance,
    string? Source
);

internal sealed record FactRow(
    string? Code,
    string? Is,
    string? Meaning,
    string? Provenance,
    string? BorrowedFrom,
    string? Source,
    string? Note
);

internal sealed record StageRow(string? Code, int? Order, SignRow?[]? Signs);

internal sealed record SignRow(string? Code, int? Count, string? When, string? Provenance, string? Source);

[JsonSourceGenerationOptions(
    GenerationMode = JsonSourceGenerationMode.Metadata,
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
    AllowDuplicateProperties = false
)]
[JsonSerializable(typeof(ProfileFile))]
internal sealed partial class ProfileJson : JsonSerializerContext;
