namespace Broodtide.Server.Site;

/// <summary>The app itself: its files, packed beforehand where the browser takes them, and one page for every place.</summary>
internal static class PhoneSite
{
    /// <summary>Everything under this path is answered by the server alone and never by the app's stored copy.</summary>
    public const string ApiPath = "/api";

    public static void MapPhone(this WebApplication app)
    {
        app.MapStaticAssets();
        app.Map(ApiPath + "/{**rest}", () => Results.NotFound());
        app.MapFallbackToFile(
            "index.html",
            new StaticFileOptions
            {
                OnPrepareResponse = prepared => prepared.Context.Response.Headers.CacheControl = "no-cache",
            }
        );
    }
}
