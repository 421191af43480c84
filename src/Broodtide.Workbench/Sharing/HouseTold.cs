using System.Text.Json.Serialization;

namespace Broodtide.Workbench.Sharing;

/// <summary>What a server tells anybody who asks: where the house is. Nothing of what is kept in it.</summary>
/// <param name="Address">
/// The address of the house, such as "https://broodtide.home.arpa:5443"; none where it is reached on its own machine only.
/// </param>
/// <param name="Former">Addresses it had before, the last one first.</param>
/// <param name="Trust">Where a phone learns to trust the server; none where its certificate is known anyway.</param>
public sealed record HouseTold(string? Address, IReadOnlyList<string> Former, string? Trust)
{
    /// <summary>Where a server tells it.</summary>
    public const string Path = "api/house";
}

/// <summary>How it is written.</summary>
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
[JsonSerializable(typeof(HouseTold))]
public sealed partial class HouseToldJson : JsonSerializerContext;
