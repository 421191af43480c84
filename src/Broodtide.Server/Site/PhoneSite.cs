namespace Broodtide.Server.Site;

/// <summary>The app itself: its files, packed beforehand where the browser takes them, and one page for every place.</summary>
internal static class PhoneSite
{
    /// <summary>Everything under this path is answered by the server alone and never by the app's stored copy.</summary>
    public const string ApiPath = "/api";

    public static void MapPhone(this WebApplication app)
    {
        // The app holds nothing of the house: it must come up for who is not signed in yet.
        var open = app.MapGroup("").AllowAnonymous();
        open.MapStaticAssets();
        open.Map(ApiPath + "/{**rest}", () => Results.NotFound());
        open.MapFallbackToFile(
            "index.html",
            new StaticFileOptions
            {
                OnPrepareResponse = prepared => prepared.Context.Response.Headers.CacheControl = "no-cache",
            }
        );
    }
}
