namespace Broodtide.Server.Site;

/// <summary>
/// What a browser may do with the pages: run and load what comes from here, and nothing else. The only exception
/// that WebAssembly needs is to compile its own modules.
/// </summary>
internal static class SafeHeaders
{
    public const string ContentPolicy =
        "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; "
        + "img-src 'self' blob: data:; media-src blob:; font-src 'self'; connect-src 'self'; manifest-src 'self'; "
        + "worker-src 'self'; base-uri 'self'; form-action 'self'; frame-ancestors 'none'";

    public const string Permissions =
        "camera=(self), screen-wake-lock=(self), microphone=(), geolocation=(), payment=(), usb=()";

    /// <summary>Half a year in which a browser that came over HTTPS once comes over nothing else.</summary>
    public const string OnlySecure = "max-age=15552000";

    /// <param name="app">The server.</param>
    /// <param name="stays">
    /// Whether browsers know the certificate anyway. An authority of the house's own can be lost, and a browser bound to
    /// HTTPS would then let nobody in.
    /// </param>
    public static void UseSafeHeaders(this IApplicationBuilder app, bool stays) =>
        app.Use(
            (context, next) =>
            {
                var headers = context.Response.Headers;
                headers.ContentSecurityPolicy = ContentPolicy;
                headers.XContentTypeOptions = "nosniff";
                headers["Referrer-Policy"] = "no-referrer";
                headers["Permissions-Policy"] = Permissions;
                headers["Cross-Origin-Opener-Policy"] = "same-origin";
                headers["Cross-Origin-Resource-Policy"] = "same-origin";
                if (stays && context.Request.IsHttps)
                {
                    headers.StrictTransportSecurity = OnlySecure;
                }

                if (context.Request.Path.StartsWithSegments(PhoneSite.ApiPath, StringComparison.Ordinal))
                {
                    headers.CacheControl = "no-store";
                }

                return next(context);
            }
        );
}
