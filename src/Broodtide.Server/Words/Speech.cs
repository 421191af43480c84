using Microsoft.Net.Http.Headers;

namespace Broodtide.Server.Words;

/// <summary>A language that the server speaks.</summary>
internal enum Speech
{
    English,
    German,
}

/// <summary>Which language a browser wants, by what it says of itself.</summary>
internal static class Speeches
{
    /// <summary>The first of the wanted ones that is spoken here; English if none is.</summary>
    public static Speech WantedBy(HttpRequest request)
    {
        var wanted = request.GetTypedHeaders().AcceptLanguage;
        foreach (
            var one in wanted
                .Where(one => one.Quality is null or > 0)
                .OrderByDescending(one => one.Quality ?? 1)
        )
        {
            if (Of(one) is { } speech)
            {
                return speech;
            }
        }

        return Speech.English;
    }

    private static Speech? Of(StringWithQualityHeaderValue wanted) =>
        (wanted.Value.Value ?? "").Split('-')[0].ToLowerInvariant() switch
        {
            "de" => Speech.German,
            "en" or "*" => Speech.English,
            _ => null,
        };
}
