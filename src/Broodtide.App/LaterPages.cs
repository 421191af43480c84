using System.Reflection;
using System.Runtime.InteropServices.JavaScript;
using Microsoft.AspNetCore.Components.WebAssembly.Services;

namespace Broodtide.App;

/// <summary>
/// The pages that are fetched once the first one stands, with what only they need. From the copy that the phone keeps
/// they come without a network.
/// </summary>
internal sealed class LaterPages(LazyAssemblyLoader loader, HttpClient house)
{
    // What the pages stand on comes before them.
    private static readonly string[] Files =
    [
        "System.IO.Compression.wasm",
        "csFastFloat.wasm",
        "Sep.wasm",
        "Broodtide.Later.wasm",
    ];

    private readonly List<Assembly> _assemblies = [];
    private Task? _coming;

    /// <summary>Where the router looks for pages beside its own; empty until they are here.</summary>
    public IReadOnlyList<Assembly> Assemblies => _assemblies;

    /// <summary>Whether they are here.</summary>
    public bool AreHere => _assemblies.Count > 0;

    /// <summary>Fetches them once; all who ask meanwhile wait for the same fetch.</summary>
    /// <returns>Whether they are here.</returns>
    public async Task<bool> FetchAsync()
    {
        try
        {
            await (_coming ??= AddAsync());
        }
        catch (Exception broken) when (broken is JSException or HttpRequestException)
        {
            _coming = null;
        }

        return AreHere;
    }

    /// <summary>Whether the server would give them now.</summary>
    public async Task<bool> CanBeFetchedAsync()
    {
        try
        {
            using var asked = new HttpRequestMessage(HttpMethod.Head, "_framework/" + Files[^1]);
            using var answer = await house.SendAsync(asked);
            return answer.IsSuccessStatusCode;
        }
        catch (HttpRequestException)
        {
            return false;
        }
    }

    private async Task AddAsync() => _assemblies.AddRange(await loader.LoadAssembliesAsync(Files));
}
