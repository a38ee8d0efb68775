import { now } from '#services/clock'
import { productToAnswer } from '#services/openapi/product-answer'
import { addProduct, readProducts } from '#services/shelf/products'
import { newProductIn } from '#services/shelf/schema'
import { readWorkshop } from '#services/workshop/workshop'
import { methods } from '../_http/methods'
import { readJson } from '../_http/read-json'

export const { GET, POST, PUT, PATCH, DELETE } = methods({
  GET: async () => {
    const products = await readProducts()
    return Response.json({ products: products.map(productToAnswer) })
  },
  POST: async (request) => {
    const { currency } = await readWorkshop()
    const product = await readJson(request, newProductIn(currency))
    if (!product.ok) return product.refusal
    const added = await addProduct(product.value, now())
    return Response.json(productToAnswer(added), { status: 201 })
  },
})
