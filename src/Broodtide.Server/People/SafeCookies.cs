using Microsoft.AspNetCore.Authentication.Cookies;

namespace Broodtide.Server.People;

/// <summary>
/// Names the session's cookie as the connection allows: over HTTPS with the prefix by which a browser binds it to
/// this very host, that no neighbour can set it.
/// </summary>
internal sealed class SafeCookies : ICookieManager
{
    private const string HostPrefix = "__Host-";
    private readonly ChunkingCookieManager _inner = new();

    public string? GetRequestCookie(HttpContext context, string key) =>
        _inner.GetRequestCookie(context, Name(context, key));

    public void AppendResponseCookie(HttpContext context, string key, string? value, CookieOptions options) =>
        _inner.AppendResponseCookie(context, Name(context, key), value, options);

    public void DeleteCookie(HttpContext context, string key, CookieOptions options) =>
        _inner.DeleteCookie(context, Name(context, key), options);

    private static string Name(HttpContext context, string key) =>
        context.Request.IsHttps ? HostPrefix + key : key;
}
